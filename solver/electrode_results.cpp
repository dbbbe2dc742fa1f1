#include "solver/electrode_results.hpp"

#include "solver/deposit.hpp"
#include "solver/extremes.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

constexpr double kWindow = 1e-3;  // [m]

/// Current density out of the liquid along an electrode.
struct Local {
  std::vector<Extreme> averages;
  double into_liquid = 0;    ///< integral of its negative part [A]
  double out_of_liquid = 0;  ///< of its positive part [A]
  double largest() const { return most(+1); }
  double least() const { return -most(-1); }

 private:
  double most(double sign) const {
    double value = 0;
    for (const Extreme& x : averages) value = std::max(value, sign * x.value);
    return value;
  }
};

Local local(const Model& model, const WorkingPoint& w, std::size_t e) {
  const VectorXd density = current_density(model.response, w, e);
  const Electrodes& electrodes = model.response.electrodes();
  const Surface surface = unroll(model.mesh, model.section, electrodes, e);
  Local result;
  result.averages = averages_over(surface, density, kWindow, false);
  const VectorXd& weight = electrodes.each[e].weight;
  for (Index k = 0; k < density.size(); ++k)
    (density(k) > 0 ? result.out_of_liquid : result.into_liquid) +=
        std::abs(density(k)) * weight(k) * model.scale.depth;
  return result;
}

double area_of(const Model& model, std::size_t e) {
  return model.response.electrodes().each[e].measure * model.scale.depth;
}

/// Those that give current in one step.
std::vector<AnodeResult> anodes_in(const Model& model, const Case& c,
                                   const Outcome& outcome) {
  std::vector<AnodeResult> results;
  const WorkingPoint& w = outcome.point;
  const auto& electrodes = model.response.electrodes().each;
  for (std::size_t e = 0; e < electrodes.size(); ++e) {
    if (!w.laws[e].anode) continue;
    const Anode& anode = *anode_of(c, electrodes[e].solid);
    AnodeResult r;
    r.name = anode.name;
    r.solid = anode.solid;
    r.current = -w.current(static_cast<Index>(e));
    r.area = area_of(model, e);
    r.mean = r.current / r.area;
    r.max = std::max(r.mean, -local(model, w, e).least());
    // A soluble anode gives what the part takes, at full efficiency.
    if (anode.soluble)
      r.mass_loss =
          mass_per_charge(c.solution.metal) * r.current * total_duration(c);
    results.push_back(r);
  }
  // Wires take their current on top of the section's: the anodes give it in
  // the shares that they give to the section.
  const double drawn = w.total_current - w.wire_current;
  if (drawn > 0)
    for (AnodeResult& r : results) {
      const double share = w.total_current / drawn;
      r.current *= share;
      r.mean *= share;
      r.max *= share;
      r.mass_loss *= share;
    }
  return results;
}

}  // namespace

std::vector<AnodeResult> describe_anodes(const Schedule& schedule,
                                         const Case& c) {
  std::vector<AnodeResult> results;
  for (const Anode& anode : c.anodes) {
    results.emplace_back();
    results.back().name = anode.name;
  }
  for (const SolvedStep& step : schedule.steps) {
    const std::vector<AnodeResult> here =
        anodes_in(step.solved->model, step.used, step.solved->outcome);
    for (AnodeResult& all : results) {
      const double lost = all.mass_loss;
      const auto found = std::find_if(
          here.begin(), here.end(),
          [&](const AnodeResult& r) { return r.name == all.name; });
      all = found == here.end() ? AnodeResult{all.name} : *found;
      all.mass_loss += lost;
    }
  }
  return results;
}

std::vector<CathodeResult> describe_cathodes(const Model& model,
                                             const Outcome& outcome,
                                             mesh::Role role) {
  std::vector<CathodeResult> results;
  const WorkingPoint& w = outcome.point;
  const auto& electrodes = model.response.electrodes().each;
  for (std::size_t e = 0; e < electrodes.size(); ++e) {
    const mesh::Solid& solid = model.section.solids[electrodes[e].solid].spec;
    if (solid.role != role) continue;
    CathodeResult r;
    r.name = solid.name;
    r.solid = electrodes[e].solid;
    r.current = w.current(static_cast<Index>(e));
    r.area = area_of(model, e);
    r.mean = r.current / r.area;
    r.max = std::max(r.mean, local(model, w, e).largest());
    results.push_back(r);
  }
  return results;
}

std::vector<FloatingResult> describe_floating(const Model& model,
                                              const Outcome& outcome) {
  std::vector<FloatingResult> results;
  const WorkingPoint& w = outcome.point;
  const auto& electrodes = model.response.electrodes().each;
  for (std::size_t e = 0; e < electrodes.size(); ++e) {
    if (!w.laws[e].floating) continue;
    const Local here = local(model, w, e);
    FloatingResult r;
    r.solid = electrodes[e].solid;
    r.name = model.section.solids[r.solid].spec.name;
    // The two are one current but for the quadrature at the nodes.
    r.through = 0.5 * (here.into_liquid + here.out_of_liquid);
    r.area = area_of(model, e);
    r.plating = here.largest();
    r.dissolving = -here.least();
    r.potential = w.drive(static_cast<Index>(e));
    results.push_back(r);
  }
  return results;
}

std::vector<WireResult> describe_wires(const Case& c, const Outcome& outcome,
                                       const SectionScale& scale) {
  std::vector<WireResult> results;
  for (const Wire& wire : c.wires) {
    WireResult r;
    r.name = wire.name;
    r.area = bare_area(wire) * static_cast<double>(copies_of(c));
    if (r.area > 0)
      r.current = outcome.point.wire_current * r.area / scale.wire_area;
    results.push_back(r);
  }
  return results;
}

}  // namespace thinspot::solver
