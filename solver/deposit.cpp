#include "solver/deposit.hpp"

#include "solver/extremes.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

}  // namespace

Extreme most_extreme(const std::vector<Extreme>& averages, double sign,
                     double mean) {
  if (averages.empty()) return {0, mean, 0, 0, 0};
  return *std::max_element(averages.begin(), averages.end(),
                           [sign](const Extreme& a, const Extreme& b) {
                             return sign * a.value < sign * b.value;
                           });
}

double growth_per_charge(const Metal& metal) {
  return mass_per_charge(metal) / metal.density;
}

double growth_per_density(const Case& c) {
  return growth_per_charge(c.solution.metal) * c.solution.efficiency.value *
         total_duration(c);
}

double mass_per_charge(const Metal& metal) {
  return metal.molar_mass / (metal.electrons * kFaraday);
}

std::vector<Extreme> averages_over(const Surface& surface,
                                   const VectorXd& values, double window,
                                   bool judged_only) {
  std::vector<Extreme> all;
  for (std::size_t l = 0; l < surface.loops.size(); ++l) {
    const SurfaceLoop& loop = surface.loops[l];
    const Profile profile(loop, values);
    for (Extreme e :
         profile.averages(judged_only ? loop.judged : loop.open, window)) {
      e.of_loop = l;
      all.push_back(e);
    }
  }
  return all;
}

Wagner wagner_of(const Model& model, const Case& c, const WorkingPoint& point,
                 const Surface& surface) {
  const mesh::Box box = mesh::bounding_box(solid_of(model, surface).outline);
  Wagner w;
  // Of a body on the axis only one half is in the section.
  const bool half = model.section.cut == mesh::Cut::axisymmetric &&
                    box.low.x() < 1e-6 * box.high.x();
  w.length = 0.5 * std::max((half ? 2 : 1) * box.size().x(), box.size().y());
  w.number = c.solution.conductivity.value *
             point.laws[surface.electrode].resistance / w.length;
  return w;
}

Outcome evaluate(const Model& model, const Case& c, const WorkingPoint* near) {
  Outcome outcome;
  outcome.point = find_working_point(model.response, c, model.scale, near);
  const WorkingPoint& w = outcome.point;
  const double window = c.accuracy.averaging_length;
  for (const Surface& surface : model.surfaces) {
    PartOutcome part;
    part.current_density =
        current_density(model.response, w, surface.electrode);
    part.current = w.current(static_cast<Index>(surface.electrode));
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

}  // namespace thinspot::solver
