#include "solver/rectifier_estimate.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

/// What a rectifier works against: its anodes' surfaces and ways beside each
/// other, its lead, and the cathode, which all rectifiers share.
struct Branch {
  double voltage = 0;  ///< that no current flows at [V]
  double metal = 0;    ///< of its anodes' surfaces and its lead [ohm]
  double liquid = 0;   ///< [ohm]
};

Branch branch_of(const Case& c, std::size_t rectifier,
                 const WettedSection& wetted, double depth,
                 const std::vector<double>& ways) {
  double area = 0, conductance = 0;
  for (std::size_t a = 0; a < c.anodes.size(); ++a)
    if (c.anodes[a].rectifier == rectifier) {
      area += wetted.of_solid[c.anodes[a].solid].measure * depth;
      conductance += ways[a];
    }
  Surfaces sum;
  for (const Anode& a : c.anodes) {
    if (a.rectifier != rectifier || area <= 0) continue;
    const double weight = wetted.of_solid[a.solid].measure * depth / area;
    add(sum, a.polarization, area, weight);
    sum.voltage += weight * a.open_circuit_voltage.value;
    sum.resistance += weight * a.bag_resistance.value / area;
  }
  return {sum.voltage,
          sum.resistance + c.rectifiers[rectifier].supply.lead_resistance.value,
          1 / conductance};
}

/// Currents and voltages for liquid of so many times the resistance.
std::vector<RectifierEstimate> at_rectifiers(
    const Case& c, const std::vector<Branch>& branches, const Surfaces& cathode,
    double drawing, double times) {
  // Current of a voltage: (voltage - cathode(whole current) - branch) / series.
  double given = 0, slopes = 0;
  const auto series = [&](std::size_t r) {
    return branches[r].metal + times * branches[r].liquid;
  };
  const auto at_rest = [&](std::size_t r) {
    return cathode.voltage + branches[r].voltage;
  };
  for (std::size_t r = 0; r < branches.size(); ++r) {
    const Supply& s = c.rectifiers[r].supply;
    if (s.current) given += s.current->value;
    if (s.current_density) given += s.current_density->value * drawing;
    if (!s.voltage) continue;
    given += (s.voltage->value - at_rest(r)) / series(r);
    slopes += 1 / series(r);
  }
  const double whole = given / (1 + cathode.resistance * slopes);
  const double shared = cathode.resistance * whole;
  std::vector<RectifierEstimate> all;
  for (std::size_t r = 0; r < branches.size(); ++r) {
    const Supply& s = c.rectifiers[r].supply;
    RectifierEstimate& e = all.emplace_back();
    e.by_voltage = s.voltage.has_value();
    e.current = s.current ? s.current->value : whole;
    e.voltage = at_rest(r) + shared + series(r) * e.current;
    if (!s.voltage) continue;
    e.voltage = s.voltage->value;
    e.current = std::max(0.0, (e.voltage - at_rest(r) - shared) / series(r));
  }
  return all;
}

}  // namespace

void add(Surfaces& sum, const Polarization& p, double area, double weight) {
  sum.voltage += weight * p.offset.value;
  // A slope that is rescaled to the mean takes the same voltage at any.
  if (p.at)
    sum.voltage += weight * p.resistance.value * *p.at;
  else if (area > 0)
    sum.resistance += weight * p.resistance.value / area;
}

void estimate_rectifiers(CellEstimate& e, const Case& c,
                         const WettedSection& wetted, const Areas& areas,
                         double depth, const std::vector<double>& ways,
                         double widest) {
  std::vector<Branch> branches;
  for (std::size_t r = 0; r < c.rectifiers.size(); ++r)
    branches.push_back(branch_of(c, r, wetted, depth, ways));
  Surfaces cathode;
  add(cathode, c.cathode, areas.drawing(), 1);
  const auto at = [&](double times) {
    return at_rectifiers(c, branches, cathode, areas.drawing(), times);
  };
  e.rectifiers = at(1);
  const auto low = at(1 / widest), high = at(widest);
  std::size_t most = 0;
  for (std::size_t r = 0; r < branches.size(); ++r) {
    RectifierEstimate& own = e.rectifiers[r];
    const auto open = [&](const RectifierEstimate& x) {
      return own.by_voltage ? x.current : x.voltage;
    };
    const double a = open(low[r]), b = open(high[r]);
    own.range = {std::min(a, b), std::max(a, b)};
    e.current += own.current;
    if (own.current > e.rectifiers[most].current) most = r;
  }
  e.density = e.current / areas.drawing();
  e.voltage = e.rectifiers[most].voltage;
  e.range = e.rectifiers[most].range;
  e.by_voltage = e.rectifiers[most].by_voltage;
}

}  // namespace thinspot::solver
