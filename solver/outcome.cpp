#include "solver/outcome.hpp"

#include "solver/extremes.hpp"

#include <utility>

namespace thinspot::solver {

Outcome evaluate(const Model& model, const Case& c, const Beginning& begin) {
  Outcome outcome;
  outcome.point = find_working_point(model.response, c, model.scale, begin);
  const WorkingPoint& w = outcome.point;
  const double window = c.accuracy.averaging_length;
  for (const Surface& surface : model.surfaces) {
    PartOutcome part;
    part.current_density =
        current_density(model.response, w, surface.electrode);
    part.current = w.current(static_cast<Eigen::Index>(surface.electrode));
    const Electrode& e = model.response.electrodes().each[surface.electrode];
    const double mean = part.current / (e.measure * model.scale.depth);
    put_extremes(part, surface, window, mean);
    outcome.parts.push_back(std::move(part));
  }
  if (outcome.parts.empty()) return outcome;
  for (const Probe& probe : c.probes)
    outcome.probes.push_back(read_probe(model, probe, window,
                                        outcome.parts.front().current_density));
  return outcome;
}

void put_extremes(PartOutcome& part, const Surface& surface, double window,
                  double mean) {
  const Extremes e = extremes_over(surface, part.current_density, window, mean);
  part.least = e.least;
  part.largest = e.largest;
  part.least_judged = e.least_judged;
  part.current_density_spread = e.spread;
}

}  // namespace thinspot::solver
