#include "solver/curved_laws.hpp"

#include "mesh/errors.hpp"
#include "solver/element.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::solver {

namespace {

using Eigen::Index;

}  // namespace

CurvedLaws::CurvedLaws(const Response& response, const Case& c,
                       const SectionScale& scale, const WorkingPoint* begin)
    : response_(response) {
  const auto& electrodes = response.electrodes().each;
  const std::vector<ElectrodeLaw> laws = laws_of(c, response.electrodes());
  const auto known = [&](std::size_t e) {
    const Tangent* tangent = begin ? begin->laws[e].tangent.get() : nullptr;
    return tangent && tangent->edges.size() == electrodes[e].edges.size()
               ? &tangent->over
               : nullptr;
  };
  double cathodes = kWireShare * scale.wire_area, anodes = 0;
  double bounded = 0;  // what mass transfer brings, of all cathodes [A]
  bool all_bounded = true;
  for (std::size_t e = 0; e < laws.size(); ++e) {
    if (laws[e].floating) continue;
    const double area = electrodes[e].measure * scale.depth;
    (laws[e].anode ? anodes : cathodes) += area;
    if (laws[e].anode) continue;
    const auto limit =
        limit_for(polarization_of(c, electrodes[e].solid), c.solution, false);
    all_bounded = all_bounded && limit.has_value();
    const double drawn = laws[e].part ? area + kWireShare * scale.wire_area *
                                                   area / scale.part_area
                                      : area;
    bounded += limit.value_or(0) * drawn;
  }
  const std::optional<double> set = set_density(c, cathodes);
  if (set && all_bounded && *set * cathodes >= bounded &&
      !c.supply.voltage_limit && c.rectifiers.empty())
    throw InputError(
        "supply",
        fmt::format("asks for {:.3g} A/dm2 on average, and mass transfer "
                    "brings no more than {:.3g} A/dm2 to the metal: the rest "
                    "would make hydrogen and a burnt deposit",
                    1e-2 * *set, 1e-2 * bounded / cathodes),
        "less current, or more stirring or metal in the solution");
  for (std::size_t e = 0; e < laws.size(); ++e) {
    if (laws[e].floating) continue;
    const Polarization& p = polarization_of(c, electrodes[e].solid);
    const auto limit = limit_for(p, c.solution, laws[e].anode);
    LawCurve curve(p, c.solution, limit);
    if (!curve.curved()) continue;
    const Anode* anode = anode_of(c, electrodes[e].solid);
    One one{
        e, curve, laws[e].anode, anode ? anode->bag_resistance.value : 0, {}};
    if (const OverPotentials* over = known(e)) {
      one.over = *over;
    } else {
      double density = set.value_or(kUsualDensity);
      if (laws[e].anode) density *= cathodes / anodes;
      if (limit) density = std::min(density, 0.5 * *limit);
      one.over = even(electrodes[e], curve.over(density).value_or(0));
    }
    each_.push_back(std::move(one));
  }
}

OverPotentials CurvedLaws::even(const Electrode& electrode, double over) const {
  OverPotentials o;
  o.gauss.assign(electrode.edges.size(), {over, over, over, over});
  o.nodes = Eigen::VectorXd::Constant(static_cast<Index>(electrode.rows.size()),
                                      over);
  return o;
}

void CurvedLaws::put(std::vector<ElectrodeLaw>& laws) const {
  for (const One& one : each_) {
    const Electrode& electrode = response_.electrodes().each[one.electrode];
    ElectrodeLaw& law = laws[one.electrode];
    law.tangent =
        tangent_at(electrode, one.curve, one.anode, one.series, one.over);
    law.resistance = electrode.measure / law.tangent->weight.sum();
  }
}

double CurvedLaws::follow(const WorkingPoint& w) {
  double apart = 0;
  for (One& one : each_) {
    const Electrode& electrode = response_.electrodes().each[one.electrode];
    const Tangent& tangent = *w.laws[one.electrode].tangent;
    const Eigen::VectorXd potential =
        w.answers.potential(electrode.rows, Eigen::all) * w.drive;
    const double drive = w.drive(static_cast<Index>(one.electrode));
    const double sign = one.anode ? -1 : 1;
    double most = 0, largest = 0;
    const auto next = [&](double& over, double at, double slope, double rest) {
      const double density = sign * (slope * (at - drive) + rest);
      const double there = sign * (at - drive) - one.series * density;
      const double law = one.curve.at(there).density;
      most = std::max(most, std::abs(law - density));
      largest = std::max(largest, std::abs(law));
      over = one.curve.limited_step(over, there);
    };
    for (std::size_t k = 0; k < electrode.edges.size(); ++k) {
      const ElectrodeEdge& edge = electrode.edges[k];
      const Eigen::Vector3d ends(potential(edge.place[0]),
                                 potential(edge.place[1]),
                                 potential(edge.place[2]));
      for (std::size_t q = 0; q < 4; ++q)
        next(one.over.gauss[k][q], edge_functions(gauss_rule()[q].t).dot(ends),
             tangent.edges[k].slope[q], tangent.edges[k].rest[q]);
    }
    for (Index k = 0; k < potential.size(); ++k)
      next(one.over.nodes(k), potential(k), tangent.node_slope(k),
           tangent.node_rest(k));
    apart = std::max(apart, largest > 0 ? most / largest : most);
  }
  return apart;
}

}  // namespace thinspot::solver
