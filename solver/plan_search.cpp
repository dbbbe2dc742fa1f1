#include "solver/plan_search.hpp"

#include "mesh/errors.hpp"
#include "mesh/kernel.hpp"
#include "solver/free_part.hpp"
#include "solver/plan_figures.hpp"
#include "solver/plan_jobs.hpp"

#include <nlopt.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <memory>
#include <random>
#include <utility>

namespace thinspot::solver {

namespace {

/// Trials of one local search, per variable and in all.
constexpr int kTrialsEach = 12, kLeastTrials = 18, kMostTrials = 90;
/// Of a range, the first steps of a search, and those at which it ends: far
/// above what meshes change (2e-4 of a figure) and below what a ruler sets.
constexpr double kFirstStep = 0.2, kLastStep = 0.01;
/// Moving all of a range from where it is drawn has to gain as much: hands
/// leave be what does not matter.
constexpr double kLeaveBe = 0.02;
/// How many structures and schedules get more starts, and how many each.
constexpr std::size_t kPromising = 4;
constexpr int kMoreStarts = 3;
/// Of every range, the start at its lower end: anodes near, as where they are
/// far nothing tells which way to go.
constexpr double kNearLow = 0.1;
/// Nobody can stand so: worse than all that can.
constexpr double kCannot = 1e15;

class LocalSearch {
 public:
  LocalSearch(const SearchSpace& space, FreePart* part, const Job& job)
      : space_(space),
        structure_(space.structures[job.structure]),
        schedule_(space.schedules[job.structure][job.schedule]),
        handling_(space.handling[job.structure][job.schedule]),
        part_(part) {
    best_.objective = std::numeric_limits<double>::infinity();
  }

  Answer from(const std::vector<double>& start) {
    const std::size_t n = start.size();
    look(start);
    if (n > 0) descend(start);
    return {best_, best_at_, layouts_, candidates_};
  }

 private:
  std::vector<double> values(const std::vector<double>& shares) const {
    std::vector<double> at(shares.size());
    for (std::size_t k = 0; k < at.size(); ++k) {
      const PlanVariable& v = structure_.variables[k];
      at[k] = v.low + std::clamp(shares[k], 0.0, 1.0) * (v.high - v.low);
    }
    return at;
  }

  double moved(const std::vector<double>& at) const {
    double sum = 0;
    for (std::size_t k = 0; k < at.size(); ++k) {
      const PlanVariable& v = structure_.variables[k];
      sum += std::abs(at[k] - v.drawn) / (v.high - v.low);
    }
    return sum;
  }

  double look(const std::vector<double>& shares) {
    const std::vector<double> at = values(shares);
    ++layouts_;
    double objective = kCannot;
    try {
      Layout layout(case_at(structure_, at), part_);
      const Trial t = best_current(layout, schedule_.steps, handling_,
                                   space_.drive, space_.limits, factor_);
      factor_ = t.factor;
      candidates_ += layout.asked();
      objective = t.objective * (1 + kLeaveBe * moved(at));
      if (objective < best_with_) {
        best_with_ = objective;
        best_ = t;
        best_at_ = at;
      }
    } catch (const CaseError&) {
      // It touches something, or does not fit.
    }
    return objective;
  }

  void descend(const std::vector<double>& start) {
    const auto n = static_cast<unsigned>(start.size());
    // Quadratics need two variables; the simplex does not mind kinks.
    nlopt::opt opt(n > 1 ? nlopt::LN_BOBYQA : nlopt::LN_SBPLX, n);
    opt.set_lower_bounds(0);
    opt.set_upper_bounds(1);
    opt.set_initial_step(kFirstStep);
    opt.set_xtol_abs(kLastStep);
    opt.set_maxeval(std::clamp(kTrialsEach * static_cast<int>(n), kLeastTrials,
                               kMostTrials));
    opt.set_min_objective(
        [](const std::vector<double>& x, std::vector<double>&, void* self) {
          return static_cast<LocalSearch*>(self)->look(x);
        },
        this);
    std::vector<double> x = start;
    double least = 0;
    try {
      opt.optimize(x, least);
    } catch (const std::runtime_error&) {
      // One that comes as near as it gets, or gives up, leaves what it found.
    }
  }

  const SearchSpace& space_;
  const PlanStructure& structure_;
  const PlanSchedule& schedule_;
  double handling_;
  FreePart* part_;
  Trial best_;
  double best_with_ = kCannot;
  std::vector<double> best_at_;
  double factor_ = 1;  ///< of the layout before, which differs little
  int layouts_ = 0, candidates_ = 0;
};

/// Where the part itself is what is drawn, however the tank changes.
bool part_stays(const PlanStructure& s) {
  return !s.content.rack &&
         std::none_of(s.variables.begin(), s.variables.end(),
                      [](const PlanVariable& v) {
                        return v.key.starts_with("part.") &&
                               !v.key.starts_with("part.at.");
                      });
}

std::vector<double> drawn_shares(const PlanStructure& s) {
  std::vector<double> shares;
  for (const PlanVariable& v : s.variables)
    shares.push_back((v.drawn - v.low) / (v.high - v.low));
  return shares;
}

/// Ends of ranges are where searches stick.
std::vector<double> away_from_ends(std::vector<double> shares) {
  for (double& x : shares) x = std::clamp(x, 0.02, 0.98);
  return shares;
}

std::vector<double> random_shares(std::size_t n, std::mt19937& random) {
  std::vector<double> shares(n);
  // The library's distributions differ from one to the other.
  for (double& x : shares)
    x = 0.05 + 0.9 * static_cast<double>(random()) / 4294967296.0;
  return shares;
}

void keep_best(std::map<std::pair<std::size_t, std::size_t>, Found>& best,
               const Job& job, const Answer& answer) {
  if (!(answer.trial.objective < kCannot)) return;
  const auto key = std::pair(job.structure, job.schedule);
  const auto known = best.find(key);
  if (known != best.end() &&
      known->second.trial.objective <= answer.trial.objective)
    return;
  best[key] = {job.structure, job.schedule, answer.at, answer.trial};
}

}  // namespace

SearchSpace search_space(const Case& c, const PlanLimits& limits) {
  SearchSpace space;
  space.limits = limits;
  space.drive = drive_range(c);
  space.seed = c.plan.seed;
  space.structures = plan_structures(c);
  const int most = most_turns(c);
  for (const PlanStructure& s : space.structures) {
    space.schedules.push_back(plan_schedules(s.content, most));
    std::vector<double>& handling = space.handling.emplace_back();
    for (const PlanSchedule& schedule : space.schedules.back()) {
      Case asked = s.content;
      asked.steps = schedule.steps;
      handling.push_back(handling_time(asked));
    }
  }
  return space;
}

Case case_at(const PlanStructure& structure, const std::vector<double>& at) {
  Case c = structure.content;
  for (std::size_t k = 0; k < at.size(); ++k)
    structure.variables[k].set(c, at[k]);
  return c;
}

SearchResult search(const SearchSpace& space, const Progress& progress) {
  SearchResult result;
  std::map<std::pair<std::size_t, std::size_t>, Found> best;
  std::vector<Job> jobs;
  for (std::size_t s = 0; s < space.structures.size(); ++s)
    for (std::size_t k = 0; k < space.schedules[s].size(); ++k)
      jobs.push_back({s, k, away_from_ends(drawn_shares(space.structures[s]))});
  // Whatever hangs beside it, the part is one and the same.
  std::unique_ptr<FreePart> part;
  mesh::kernel();  // loaded once, and not by each of the workers
  Jobs workers([&](const Job& job) {
    const PlanStructure& structure = space.structures[job.structure];
    const bool kept = part_stays(structure);
    if (!part && kept) part = std::make_unique<FreePart>(structure.content);
    return LocalSearch(space, kept ? part.get() : nullptr, job).from(job.start);
  });
  const auto run = [&](const std::vector<Job>& round, const Progress& stretch) {
    const std::vector<Answer> answers = workers.run(round, stretch);
    for (std::size_t k = 0; k < round.size(); ++k) {
      keep_best(best, round[k], answers[k]);
      result.layouts += answers[k].layouts;
      result.candidates += answers[k].candidates;
    }
  };
  run(jobs, progress.part(0, 0.5));
  const auto sorted = [&] {
    std::vector<Found> all;
    for (const auto& [key, found] : best) all.push_back(found);
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
      return a.trial.objective < b.trial.objective;
    });
    return all;
  };
  const std::vector<Found> first = sorted();
  std::mt19937 random(space.seed);
  std::vector<Job> more;
  for (std::size_t k = 0; k < std::min(kPromising, first.size()); ++k) {
    const std::size_t n = first[k].at.size();
    for (int start = 0; n > 0 && start < kMoreStarts; ++start)
      more.push_back({first[k].structure, first[k].schedule,
                      start == 0 ? std::vector<double>(n, kNearLow)
                                 : random_shares(n, random)});
  }
  run(more, progress.part(0.5, 1));
  result.found = sorted();
  progress.at(1);
  return result;
}

}  // namespace thinspot::solver
