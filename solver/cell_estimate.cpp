#include "solver/cell_estimate.hpp"

#include "solver/polarization.hpp"
#include "solver/rectifier_estimate.hpp"
#include "solver/supply.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <optional>

namespace thinspot::solver {

namespace {

using mesh::Point;
using mesh::Role;

constexpr double pi = std::numbers::pi;

bool is_cathode(Role role) {
  return role == Role::part || role == Role::clip || role == Role::thief;
}

/// What of a surface looks at another.
struct Facing {
  double measure = 0;
  double gap = 0;  ///< harmonic mean of the distance to the other [m]
};

/// Current that spreads at the ends of two flush plates widens their gap by
/// 2 ln 2/pi of it (Newman, Electrochemical Systems, ch. 18); a back that
/// nothing looks at adds about twice that, as with free strips.
constexpr double kFringe = 0.44;

bool looks_at(const SurfaceSample& s, const Point& there) {
  return (there - s.at).dot(s.normal) > 0;
}

/// The cathode's surface shared out among the anodes that it looks at; last
/// what looks at none.
std::vector<Facing> shared_out(const std::vector<SurfaceSample>& cathode,
                               const std::vector<const mesh::Loop*>& anodes) {
  std::vector<Facing> shares(anodes.size() + 1);
  for (const SurfaceSample& s : cathode) {
    std::vector<std::pair<std::size_t, double>> seen;
    for (std::size_t a = 0; a < anodes.size(); ++a) {
      const Point there = nearest_point(*anodes[a], s.at);
      if (looks_at(s, there)) seen.emplace_back(a, (there - s.at).norm());
    }
    if (seen.empty()) shares.back().measure += s.measure;
    for (const auto& [a, gap] : seen) {
      const double share = s.measure / static_cast<double>(seen.size());
      shares[a].measure += share;
      // Paths side by side: their conductances add.
      shares[a].gap += share / gap;
    }
  }
  for (Facing& f : shares)
    if (f.measure > 0) f.gap = f.measure / f.gap;
  return shares;
}

double measure_facing(const mesh::Loop& pieces, const mesh::Loop& other,
                      mesh::Cut cut) {
  double sum = 0;
  for (const SurfaceSample& s : samples_of(pieces, cut))
    if (looks_at(s, nearest_point(other, s.at))) sum += s.measure;
  return sum;
}

/// Width of the liquid between two that are a and b wide, in which the same
/// current would flow along a straight channel: for a wedge the logarithmic
/// mean.
double wedge_width(double a, double b) {
  return std::abs(a - b) < 1e-6 * a ? a : (a - b) / std::log(a / b);
}

/// Widths are lengths in a planar section, areas in an axisymmetric one: what
/// a margin all around adds to one.
double with_margin(double width, double margin, mesh::Cut cut) {
  if (cut != mesh::Cut::axisymmetric) return width + 2 * margin;
  const double r = std::sqrt(width / pi) + margin;
  return pi * r * r;
}

/// Width of the tank across the way from one body to another [m; m2], or
/// nothing where one stands around the other.
std::optional<double> free_width(const mesh::Section& section,
                                 const mesh::Box& a, const mesh::Box& b) {
  const auto apart = [&](Eigen::Index k) {
    return a.high(k) < b.low(k) || b.high(k) < a.low(k);
  };
  const Point tank = mesh::bounding_box(section.liquid_bounds).size();
  const bool turned = section.cut == mesh::Cut::axisymmetric;
  if (apart(1)) return turned ? pi * tank.x() * tank.x() : tank.x();
  if (apart(0) && !turned) return tank.y();
  return std::nullopt;
}

/// Width over gap: the conductance, over conductivity and depth, between one
/// anode and its share of the cathode.
double conductance(const mesh::Section& section, double gap, double at_part,
                   double at_anode, std::optional<double> free, double fringe,
                   double liquid) {
  if (free) {
    // Lines of current spread at some 45 degrees, no further.
    at_anode = std::min(at_anode, with_margin(at_part, gap, section.cut));
    at_part = std::min(at_part, with_margin(at_anode, gap, section.cut));
  }
  const double between = wedge_width(at_part, at_anode);
  const double bulge =
      with_margin(between, 0.5 * fringe * gap, section.cut) - between;
  // No wider than the tank, nor than there is liquid besides what lies
  // between the two.
  double room = liquid / gap - 0.5 * (at_part + at_anode);
  if (free) room = std::min(room, *free - between);
  return (between + std::clamp(bulge, 0.0, std::max(0.0, room))) / gap;
}

/// Conductance of the liquid between each anode and the cathode [1/ohm].
std::vector<double> conductances(const Case& c, const mesh::Section& section,
                                 const WettedSection& wetted, double depth) {
  mesh::Loop cathode;
  for (std::size_t s = 0; s < section.solids.size(); ++s)
    if (is_cathode(section.solids[s].spec.role))
      cathode.insert(cathode.end(), wetted.of_solid[s].pieces.begin(),
                     wetted.of_solid[s].pieces.end());
  std::vector<const mesh::Loop*> anodes;
  for (const Anode& a : c.anodes)
    anodes.push_back(&wetted.of_solid[a.solid].pieces);
  const auto samples = samples_of(cathode, section.cut);
  const std::vector<Facing> shares = shared_out(samples, anodes);
  double whole = 0;
  for (const SurfaceSample& s : samples) whole += s.measure;
  const double unseen = shares.back().measure / whole;
  const double fringe = kFringe * (1 + 2 * unseen);
  std::vector<double> of(anodes.size(), 0);
  for (std::size_t a = 0; a < anodes.size(); ++a) {
    const double at_anode = measure_facing(*anodes[a], cathode, section.cut);
    if (shares[a].measure <= 0 || at_anode <= 0) continue;
    of[a] =
        c.solution.conductivity.value * depth *
        conductance(section, shares[a].gap, shares[a].measure, at_anode,
                    free_width(section, mesh::bounding_box({{cathode}}),
                               mesh::bounding_box({{*anodes[a]}})),
                    fringe, wetted.liquid / static_cast<double>(anodes.size()));
  }
  return of;
}

Surfaces surfaces(const Case& c, const WettedSection& wetted,
                  const Areas& areas, double depth) {
  Surfaces sum;
  add(sum, c.cathode, areas.drawing(), 1);
  for (const Anode& a : c.anodes) {
    const double weight = areas.anodes > 0 ? wetted.of_solid[a.solid].measure *
                                                 depth / areas.anodes
                                           : 0;
    add(sum, a.polarization, areas.anodes, weight);
    sum.voltage += weight * a.open_circuit_voltage.value;
    if (areas.anodes > 0)
      sum.resistance += weight * a.bag_resistance.value / areas.anodes;
  }
  return sum;
}

}  // namespace

double Areas::drawing() const {
  return part + kWireShare * wires + clips + thieves;
}

Areas find_areas(const Case& c, const WettedSection& wetted, double depth) {
  Areas areas;
  for (std::size_t s = 0; s < c.section.solids.size(); ++s) {
    const double area = wetted.of_solid[s].measure * depth;
    switch (c.section.solids[s].role) {
      case Role::part: areas.parts.push_back(area); break;
      case Role::clip: areas.clips += area; break;
      case Role::thief: areas.thieves += area; break;
      case Role::anode: areas.anodes += area; break;
      default: break;
    }
  }
  for (double a : areas.parts) areas.part += a;
  for (const Wire& w : c.wires)
    areas.wires += static_cast<double>(areas.parts.size()) * bare_area(w);
  return areas;
}

CellEstimate estimate_cell(const Case& c, const mesh::Section& section,
                           const WettedSection& wetted, const Areas& areas,
                           double depth) {
  if (has_curved_laws(c) && areas.anodes > 0)
    return estimate_cell(with_linear_laws(c, areas.drawing(), areas.anodes),
                         section, wetted, areas, depth);
  const std::vector<double> ways = conductances(c, section, wetted, depth);
  const double liquid = 1 / std::accumulate(ways.begin(), ways.end(), 0.0);
  const Surfaces at_metal = surfaces(c, wetted, areas, depth);
  const double rest = c.supply.lead_resistance.value + at_metal.resistance;
  const double uncertain =
      c.solution.conductivity.plus_minus / c.solution.conductivity.value;
  const double low = liquid / kRoughness / (1 + uncertain);
  const double high = liquid * kRoughness / std::max(0.1, 1 - uncertain);
  CellEstimate e;
  e.ohmic = liquid;
  if (!c.rectifiers.empty()) {
    const double widest = std::max(high / liquid, liquid / low);
    estimate_rectifiers(e, c, wetted, areas, depth, ways, widest);
    return e;
  }
  if (c.supply.voltage) {
    e.by_voltage = true;
    e.voltage = c.supply.voltage->value;
    const double drive = std::max(0.0, e.voltage - at_metal.voltage);
    e.current = drive / (rest + liquid);
    e.range = {drive / (rest + high), drive / (rest + low)};
    e.density = e.current / areas.drawing();
    return e;
  }
  e.density = c.supply.current ? c.supply.current->value / areas.drawing()
                               : c.supply.current_density->value;
  e.current = e.density * areas.drawing();
  e.voltage = at_metal.voltage + (rest + liquid) * e.current;
  e.range = {at_metal.voltage + (rest + low) * e.current,
             at_metal.voltage + (rest + high) * e.current};
  return e;
}

}  // namespace thinspot::solver
