#include "solver/schedule.hpp"

#include "mesh/errors.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;

/// Angles that stand for a turn; as many again until that changes no more.
constexpr int kFirstAngles = 8, kMostAngles = 64;

/// Probes are points of the first part's material: where it is in a step.
void move_probes(Case& c, const mesh::Section& drawn,
                 const mesh::Section& there) {
  const auto part = std::find_if(
      drawn.solids.begin(), drawn.solids.end(),
      [](const auto& s) { return s.spec.role == mesh::Role::part; });
  const auto moved = std::find_if(
      there.solids.begin(), there.solids.end(),
      [](const auto& s) { return s.spec.role == mesh::Role::part; });
  if (part == drawn.solids.end() || moved == there.solids.end()) return;
  for (Probe& probe : c.probes) {
    const mesh::OutlineFoot foot = mesh::nearest(part->outline, probe.at);
    mesh::Place place{static_cast<int>(foot.loop), static_cast<int>(foot.curve),
                      foot.t};
    if (moved->flipped) place = mesh::flipped(place, part->outline);
    probe.at = mesh::point_at(
        mesh::curve_of(moved->outline, place.loop, place.curve), place.t);
  }
}

Case used_in(const Case& c, std::size_t step, const mesh::Section& drawn) {
  Case used = case_of_step(c, step);
  if (used.section.motion == mesh::Motion{} || used.probes.empty()) return used;
  move_probes(used, drawn, mesh::build_section(used.section));
  return used;
}

/// Where all stands as in an earlier step its mesh will do, and where the
/// supply is set alike its currents too.
/// @param before  a schedule of fewer angles
void solve(Schedule& s, const Case& c, std::size_t k, const Schedule& before) {
  SolvedStep step{used_in(c, k, s.drawn), nullptr, 0};
  step.growth = growth_per_density(step.used);
  const Certified* alike = nullptr;
  for (const auto* all : std::initializer_list<const std::vector<SolvedStep>*>{
           &s.steps, &before.steps})
    for (const SolvedStep& other : *all) {
      const Step& there = other.used.steps.front();
      if (step.solved || !same_places(there, c.steps[k])) continue;
      alike = other.solved.get();
      if (same_currents(there, c.steps[k])) step.solved = other.solved;
    }
  if (!step.solved)
    step.solved = std::make_shared<const Certified>(
        certify(alike ? alike->model : build_model(step.used), step.used));
  s.steps.push_back(std::move(step));
}

std::vector<StepOnPart> steps_on_part(
    const Schedule& s, std::size_t part,
    const std::vector<const Outcome*>& outcomes,
    const std::vector<double>& growth) {
  std::vector<StepOnPart> steps;
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    const Model& model = s.steps[k].solved->model;
    if (model.surfaces.size() != s.steps.front().solved->model.surfaces.size())
      throw NoResultError("a part is all dry in one of the steps");
    const Surface& surface = model.surfaces[part];
    steps.push_back({&solid_of(model, surface), &surface, &model.mesh,
                     &outcomes[k]->parts[part].current_density, growth[k]});
  }
  return steps;
}

const mesh::Outline& drawn_outline(const Schedule& s, std::size_t part) {
  const Model& model = s.steps.front().solved->model;
  const std::string& key = solid_of(model, model.surfaces[part]).spec.key;
  return s.drawn.solids[mesh::index_of(s.drawn, key)].outline;
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

/// What is wrong only once the part has moved says so.
InputError in_step(const InputError& error, std::size_t step) {
  std::vector<Problem> problems = error.problems();
  for (Problem& p : problems) p.wrong += fmt::format(", in step {}", step + 1);
  return InputError(std::move(problems));
}

Schedule solved_at(const Case& c, const std::vector<int>& angles,
                   const Schedule& before) {
  Schedule s;
  mesh::SectionSpec drawn = c.section;
  drawn.motion = {};
  s.drawn = mesh::build_section(drawn);
  s.angles = angles;
  const Expanded all = expanded(c, angles);
  s.phases = all.phases;
  for (std::size_t k = 0; k < all.content.steps.size(); ++k) {
    try {
      solve(s, all.content, k, before);
    } catch (const InputError& error) {
      if (k == 0) throw;
      throw in_step(error, s.phases[k].step);
    }
  }
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
    if (s.phases[k].step != step) continue;
    double weight = s.steps[k].growth;
    for (const Angle& angle : half)
      if (2 * angle.index == s.phases[k].index) weight -= growth * angle.share;
    change += weight * coat.density.col(static_cast<Index>(k));
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

/// Each step once more, with an eye on where the coat of all is thinnest and
/// heaviest.
void watch_extremes(Schedule& s) {
  using Shared = std::shared_ptr<const Certified>;
  std::vector<std::pair<Shared, Shared>> done;  // before and after
  const std::vector<std::vector<Watched>> watched = watched_in_steps(s);
  for (std::size_t k = 0; k < s.steps.size(); ++k) {
    SolvedStep& step = s.steps[k];
    const auto found = std::find_if(
        done.begin(), done.end(),
        [&](const auto& pair) { return pair.first == step.solved; });
    if (found != done.end()) {
      step.solved = found->second;
      continue;
    }
    auto again = std::make_shared<const Certified>(
        certify(step.solved->model, step.used, watched[k]));
    done.emplace_back(std::exchange(step.solved, again), again);
  }
}

void add_errors(Schedule& s) {
  const bool one = one_field(s);
  s.errors.assign(s.coats.size(), {});
  for (const SolvedStep& step : s.steps) {
    const MeshErrors& e = step.solved->errors;
    for (std::size_t p = 0; p < s.coats.size(); ++p) {
      MeshErrors::OfPart& sum = s.errors[p];
      const MeshErrors::OfPart& own = e.parts[p];
      sum.mean += step.growth * own.mean;
      const auto of = [&](std::size_t k, double there) {
        return step.growth * (one ? there : e.watched[3 * p + k]);
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

void add_probes(Schedule& s, const Case& c) {
  s.probe_thickness.assign(c.probes.size(), 0);
  s.probe_errors.assign(c.probes.size(), 0);
  for (const SolvedStep& step : s.steps)
    for (std::size_t k = 0; k < c.probes.size(); ++k) {
      s.probe_thickness[k] +=
          step.growth * step.solved->outcome.probes[k].window.value;
      s.probe_errors[k] += step.growth * step.solved->errors.probes[k];
    }
}

}  // namespace

bool Schedule::within() const {
  return std::all_of(steps.begin(), steps.end(), [](const SolvedStep& step) {
    return step.solved->within;
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
    laid.spreads.push_back(
        spread_of(coat, coat.thickness, volume, c.accuracy.averaging_length));
  }
  return laid;
}

Schedule run_schedule(const Case& c) {
  std::vector<int> angles;
  for (const Step& step : c.steps)
    angles.push_back(step.turning && step.turning->positions == 0 ? kFirstAngles
                                                                  : 1);
  Schedule s;
  for (Schedule before;; before = std::move(s)) {
    s = solved_at(c, angles, before);
    if (!double_angles(s, c, angles)) break;
  }
  add_up_watched(s, c);
  add_probes(s, c);
  return s;
}

void add_up_watched(Schedule& s, const Case& c) {
  if (s.coats.empty()) add_up(s, c);
  if (!one_field(s)) {
    watch_extremes(s);
    add_up(s, c);
  }
  add_errors(s);
}

}  // namespace thinspot::solver
