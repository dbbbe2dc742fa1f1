#include "solver/schedule.hpp"

#include "mesh/errors.hpp"
#include "solver/efficiency.hpp"
#include "solver/expected_work.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;

/// Of the work with the first angles, what each doubling of them takes.
constexpr double kAgain = 0.5;
/// Angles that stand for a turn; as many again until that changes no more.
constexpr int kFirstAngles = 8, kMostAngles = 64;

std::vector<StepOnPart> steps_on_part(
    const Schedule& s, std::size_t part,
    const std::vector<const Outcome*>& outcomes,
    const std::vector<double>& growth) {
  std::vector<StepOnPart> steps;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    const Model& model = s.steps[k].solved->model;
    if (model.surfaces.size() != s.steps.front().solved->model.surfaces.size())
      throw NoResultError(fmt::format(
          "of some part nothing is wetted in step {}, where it is in another: "
          "keep bare metal of it below tank.level in all steps",
          s.phases[k].step + 1));
    const Surface& surface = model.surfaces[part];
    steps.push_back({&solid_of(model, surface), &surface, &model.mesh,
                     &outcomes[k]->parts[part].current_density, growth[k],
                     &s.steps[k].used.solution});
  }
  return steps;
}

std::vector<const Outcome*> outcomes_of(const Schedule& s) {
  std::vector<const Outcome*> all;
  for (const SolvedStep& step : s.steps) all.push_back(&step.solved->outcome);
  return all;
}

std::vector<double> growth_of(const Schedule& s) {
  std::vector<double> all;
  for (const SolvedStep& step : s.steps) all.push_back(step.growth);
  return all;
}

void add_up(Schedule& s, const Case& c) {
  Laid laid = lay_down(s, c, outcomes_of(s), growth_of(s));
  s.coats = std::move(laid.coats);
  s.spreads = std::move(laid.spreads);
}

bool one_field(const Schedule& s) {
  return std::all_of(s.steps.begin(), s.steps.end(), [&](const auto& step) {
    return step.solved == s.steps.front().solved;
  });
}

Schedule solved_at(const Case& c, const std::vector<int>& angles,
                   const Schedule& before, const Progress& progress) {
  Schedule s;
  s.drawn = mesh::build_as_drawn(c.section);
  s.angles = angles;
  const Expanded all = expanded(c, angles);
  s.phases = all.phases;
  std::vector<std::size_t> numbers;
  for (const Phase& phase : s.phases) numbers.push_back(phase.step);
  static_cast<SolvedSteps&>(s) =
      solve_steps(all.content, numbers, s.drawn, before, progress);
  add_up(s, c);
  s.turning_errors.assign(s.coats.size(), 0);
  return s;
}

/// How far the thickness that one step leaves on a part is from what half as
/// many angles make of it, at most [m]. The sum over angles of a smooth
/// periodic function converges faster than any power, so that half as many
/// tell more than what is still missing.
double change_from_half(const Schedule& s, const Case& c, std::size_t step,
                        const Coat& coat) {
  const std::vector<Angle> half = angles_of(
      *c.steps[step].turning, c.steps[step].duration.value, s.angles[step] / 2);
  double growth = 0;
  for (std::size_t k = 0; k < s.phases.size(); ++k)
    if (s.phases[k].step == step) growth += s.steps[k].growth;
  Eigen::VectorXd change = Eigen::VectorXd::Zero(coat.thickness.size());
  for (std::size_t k = 0; k < s.phases.size(); ++k) {
    if (s.phases[k].step != step || s.steps[k].growth <= 0) continue;
    double weight = s.steps[k].growth;
    for (const Angle& angle : half)
      if (2 * angle.index == s.phases[k].index) weight -= growth * angle.share;
    change +=
        weight / s.steps[k].growth * coat.deposit.col(static_cast<Index>(k));
  }
  return change.cwiseAbs().maxCoeff();
}

/// Doubles the angles of steps that need it.
bool double_angles(Schedule& s, const Case& c, std::vector<int>& angles) {
  bool any = false;
  for (std::size_t k = 0; k < c.steps.size(); ++k) {
    if (angles[k] == 1) continue;
    bool enough = true;
    for (std::size_t p = 0; p < s.coats.size(); ++p) {
      const double change = change_from_half(s, c, k, s.coats[p]);
      s.turning_errors[p] += change;
      enough = enough &&
               change <= c.accuracy.tolerance * s.spreads[p].thickness.mean;
    }
    if (enough || angles[k] >= kMostAngles) continue;
    angles[k] *= 2;
    any = true;
  }
  return any;
}

/// The windows of all parts' least, largest and least judged thickness, as they
/// lie in each step.
std::vector<std::vector<Watched>> watched_in_steps(const Schedule& s) {
  std::vector<std::vector<Watched>> windows(s.steps.size());
  for (std::size_t p = 0; p < s.coats.size(); ++p) {
    const std::vector<StepOnPart> on =
        steps_on_part(s, p, outcomes_of(s), growth_of(s));
    const CoatSpread& spread = s.spreads[p];
    for (std::size_t k = 0; k < s.steps.size(); ++k)
      for (const Extreme& e :
           {spread.least, spread.largest, spread.least_judged})
        windows[k].push_back(
            {p, e.to > e.from
                    ? window_in_step(e, s.coats[p], drawn_outline(s, p), on[k])
                    : Extreme{}});
  }
  return windows;
}

void add_errors(Schedule& s) {
  const bool one = one_field(s);
  s.errors.assign(s.coats.size(), {});
  for (const SolvedStep& step : s.steps) {
    const MeshErrors& e = step.solved->errors;
    for (std::size_t p = 0; p < s.coats.size(); ++p) {
      MeshErrors::OfPart& sum = s.errors[p];
      const MeshErrors::OfPart& own = e.parts[p];
      const Spread& i = step.solved->outcome.parts[p].current_density_spread;
      const double growth =
          step.growth * steepest(step.used.solution, i.min, i.max);
      sum.mean += growth * own.mean;
      const auto of = [&](std::size_t k, double there) {
        return growth * (one ? there : e.watched[3 * p + k]);
      };
      sum.least += of(0, own.least);
      sum.largest += of(1, own.largest);
      sum.least_judged += of(2, own.least_judged);
    }
  }
  for (std::size_t p = 0; p < s.coats.size(); ++p)
    for (double* e : {&s.errors[p].least, &s.errors[p].mean,
                      &s.errors[p].largest, &s.errors[p].least_judged})
      *e += s.turning_errors[p];
}

}  // namespace

const mesh::Outline& drawn_outline(const Schedule& s, std::size_t part) {
  const Model& model = s.steps.front().solved->model;
  const std::string& key = solid_of(model, model.surfaces[part]).spec.key;
  return s.drawn.solids[mesh::index_of(s.drawn, key)].outline;
}

bool Schedule::within() const {
  return std::all_of(steps.begin(), steps.end(), [](const SolvedStep& step) {
    return step.solved->within;
  });
}

bool Schedule::by_density() const {
  return std::any_of(steps.begin(), steps.end(), [](const SolvedStep& step) {
    return !step.used.solution.efficiency_table.empty();
  });
}

int Schedule::rounds() const {
  int most = 0;
  for (const SolvedStep& step : steps)
    most = std::max(most, step.solved->rounds);
  return most;
}

Laid lay_down(const Schedule& s, const Case& c,
              const std::vector<const Outcome*>& outcomes,
              const std::vector<double>& growth) {
  const Model& model = s.steps.front().solved->model;
  Laid laid;
  for (std::size_t p = 0; p < model.surfaces.size(); ++p) {
    const Coat& coat = laid.coats.emplace_back(
        lay_down(drawn_outline(s, p), s.drawn.cut, model.scale.depth,
                 steps_on_part(s, p, outcomes, growth)));
    double volume = 0;
    for (std::size_t k = 0; k < growth.size(); ++k)
      volume += growth[k] * outcomes[k]->parts[p].current;
    // Round an edge that grows more metal comes to a thickness than its area
    // as drawn tells; where efficiency goes by current density no current
    // does.
    if (c.growth || s.by_density()) volume = volume_under(coat, coat.thickness);
    laid.spreads.push_back(
        spread_of(coat, coat.thickness, volume, c.accuracy.averaging_length));
  }
  return laid;
}

Schedule run_schedule(const Case& c, const Progress& whole) {
  const Progress progress = whole.named({"mesh and currents"});
  const ExpectedWork work = expected_work(c);
  std::vector<int> angles;
  bool may_double = false;
  for (const Step& step : c.steps) {
    const bool on_and_on = step.turning && step.turning->positions == 0;
    angles.push_back(on_and_on ? kFirstAngles : 1);
    may_double = may_double || on_and_on;
  }
  Unfolding pieces(progress);
  Schedule s;
  double more_angles = may_double ? kAgain * work.solving : 0;
  double own = work.solving;
  for (Schedule before;; before = std::move(s)) {
    s = solved_at(c, angles, before,
                  pieces.next(own, more_angles + work.watching + work.growing));
    own = more_angles;
    if (!double_angles(s, c, angles)) break;
  }
  add_up_watched(s, c, pieces.next(work.watching, work.growing));
  if (c.growth) grow(s, c, pieces.next(work.growing, 0));
  add_up_probes(s, c);
  progress.at(1);
  return s;
}

void add_up_watched(Schedule& s, const Case& c, const Progress& progress) {
  if (s.coats.empty()) add_up(s, c);
  if (!one_field(s)) {
    watch(s, watched_in_steps(s), progress.named({"checking"}));
    add_up(s, c);
  }
  add_errors(s);
}

void certify_as_it_stands(Schedule& s, const Case& c) {
  watch(s, watched_in_steps(s));
  add_up(s, c);
  s.turning_errors.assign(s.coats.size(), 0);
  for (std::size_t k = 0; k < c.steps.size(); ++k)
    for (std::size_t p = 0; s.angles[k] > 1 && p < s.coats.size(); ++p)
      s.turning_errors[p] += change_from_half(s, c, k, s.coats[p]);
  add_errors(s);
  add_up_probes(s, c);
}

void add_up_probes(Schedule& s, const Case& c) {
  s.probe_thickness.assign(c.probes.size(), 0);
  s.probe_errors.assign(c.probes.size(), 0);
  for (const SolvedStep& step : s.steps)
    for (std::size_t k = 0; k < c.probes.size(); ++k) {
      const Solution& solution = step.used.solution;
      const double i = step.solved->outcome.probes[k].window.value;
      const double off = step.solved->errors.probes[k];
      s.probe_thickness[k] += step.growth * depositing(solution, i);
      s.probe_errors[k] +=
          step.growth * steepest(solution, i - off, i + off) * off;
    }
}

}  // namespace thinspot::solver
