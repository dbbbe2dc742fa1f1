#include "solver/step_inputs.hpp"

#include "solver/circuit.hpp"
#include "solver/polarization.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

double setting_of(const Supply& s) {
  if (s.current) return s.current->value;
  if (s.current_density) return s.current_density->value;
  return s.voltage ? s.voltage->value : 0;
}

}  // namespace

InputPlaces places_of(const Case& alone, const Electrodes& electrodes) {
  return {std::max<std::size_t>(1, alone.rectifiers.size()),
          electrodes.each.size()};
}

const Supply& supply_of(const Case& alone, std::size_t rectifier) {
  return alone.rectifiers.empty() ? alone.supply
                                  : alone.rectifiers[rectifier].supply;
}

Eigen::VectorXd inputs_of(const Case& alone, const Electrodes& electrodes) {
  using At = InputPlaces;
  const InputPlaces places = places_of(alone, electrodes);
  Eigen::VectorXd inputs = Eigen::VectorXd::Zero(places.count());
  inputs(At::conductivity) = alone.solution.conductivity.value;
  const std::size_t supplies =
      std::max<std::size_t>(1, alone.rectifiers.size());
  for (std::size_t k = 0; k < supplies; ++k) {
    const Supply& s = supply_of(alone, k);
    inputs(places.at(At::setting, k)) = setting_of(s);
    inputs(places.at(At::lead, k)) = s.lead_resistance.value;
  }
  const std::vector<ElectrodeLaw> laws = laws_of(alone, electrodes);
  for (std::size_t e = 0; e < laws.size(); ++e) {
    const std::size_t solid = electrodes.each[e].solid;
    const auto put = [&](At::OfElectrode number, double value) {
      inputs(places.at(number, e)) = value;
    };
    const Anode* anode = anode_of(alone, solid);
    const double bag = anode ? anode->bag_resistance.value : 0;
    put(At::resistance, laws[e].resistance - bag);
    put(At::bag, bag);
    put(At::moved, shift(laws[e]));
    put(At::series, laws[e].series);
    if (laws[e].floating) continue;
    const Polarization& p = polarization_of(alone, solid);
    put(At::resistance, p.resistance.value);
    put(At::exchange, p.exchange_current_density.value);
    put(At::slope, p.tafel_slope.value);
    put(At::reverse, p.reverse_tafel_slope.value);
    put(At::limit, limit_for(p, alone.solution, anode != nullptr).value_or(0));
  }
  return inputs;
}

}  // namespace thinspot::solver
