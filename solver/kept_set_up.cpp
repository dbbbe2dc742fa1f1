#include "solver/kept_set_up.hpp"

#include "mesh/errors.hpp"
#include "solver/answered_again.hpp"
#include "solver/efficiency.hpp"
#include "solver/outcome.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

void widen(double& share, double error, double figure) {
  if (figure > 0) share = std::max(share, error / figure);
}

/// The thickness at each probe.
std::vector<double> probes_of(const AnsweredPhases& answered,
                              std::size_t probes) {
  std::vector<double> thickness(probes, 0);
  for (std::size_t k = 0; k < answered.used.size(); ++k)
    for (std::size_t n = 0; n < probes; ++n)
      thickness[n] += answered.growth[k] *
                      depositing(answered.used[k].solution,
                                 answered.outcomes[k]->probes[n].window.value);
  return thickness;
}

}  // namespace

KeptSetUp::KeptSetUp(const std::vector<Case>& corners) {
  for (const Case& corner : corners) {
    try {
      schedule_ = schedule_ ? certified_again(*schedule_, corner)
                            : run_schedule(corner);
    } catch (const CaseError&) {
      continue;
    }
    learn_errors(corner);
  }
}

void KeptSetUp::learn_errors(const Case& corner) {
  within_ = within_ && schedule_->within();
  const SetUpFigures f = figures_of(*schedule_, corner, false);
  const SetUpFigures::MeshErrors& e = f.mesh_errors;
  // Of all parts' mean, as answer() takes them by it.
  const double mean = f.thickness.mean;
  widen(shares_.thickness.min, e.thickness.min, mean);
  widen(shares_.thickness.mean, e.thickness.mean, mean);
  widen(shares_.thickness.max, e.thickness.max, mean);
  widen(shares_.least_judged, e.least_judged, mean);
  widen(shares_.voltage, e.voltage, f.voltage);
  widen(shares_.current, e.current, f.current);
}

SetUpFigures KeptSetUp::answer(const Case& c, bool bands) const {
  const Schedule& s = *schedule_;
  // Bands take so much longer that errors of its own come cheap.
  if (bands) return figures_of(certified_again(s, c), c, true);
  const AnsweredPhases answered = answered_phases(s, c);
  std::vector<const Outcome*> outcomes;
  for (const auto& outcome : answered.outcomes)
    outcomes.push_back(outcome.get());
  const Laid laid = lay_down(s, c, outcomes, answered.growth);
  SetUpFigures f =
      figures_of(LaidSteps{s, laid.coats, laid.spreads, outcomes}, c);
  f.probes = probes_of(answered, c.probes.size());
  const double mean = f.thickness.mean;
  f.mesh_errors = {{shares_.thickness.min * mean, shares_.thickness.mean * mean,
                    shares_.thickness.max * mean},
                   shares_.least_judged * mean,
                   shares_.voltage * f.voltage,
                   shares_.current * f.current};
  f.within = within_;
  return f;
}

SetUpFigures solved_alone(const Case& c, bool bands) {
  return figures_of(run_schedule(c), c, bands);
}

}  // namespace thinspot::solver
