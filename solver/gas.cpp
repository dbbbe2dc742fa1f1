#include "solver/gas.hpp"

#include "solver/deposit.hpp"
#include "solver/result.hpp"
#include "solver/substances.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

/// Share of the current that comes from anodes that do not dissolve.
double inert_share(const Result& result) {
  double all = 0, inert = 0;
  for (const AnodeResult& r : result.anodes) {
    all += r.current;
    const Anode* anode = anode_named(result.used, r.name);
    if (anode && !anode->soluble) inert += r.current;
  }
  return all > 0 ? std::clamp(inert / all, 0.0, 1.0) : 0;
}

/// Of the current over the part in all steps, from what it leaves there.
double mean_efficiency(const Result& result) {
  const Solution& solution = result.used.solution;
  if (solution.efficiency_table.empty()) return solution.efficiency.value;
  double mass = 0, charge = 0;
  for (const PartResult& part : result.parts) mass += part.mass;
  for (const StepResult& step : result.steps)
    charge += step.part_current * step.duration;
  return charge > 0 ? mass / (charge * mass_per_charge(solution.metal)) : 1;
}

}  // namespace

double gas_made(double charge, int electrons) {
  return charge / (electrons * kFaraday);
}

double gas_volume(double amount) { return amount * kMolarVolume; }

Gas gas_of(const Result& result) {
  Gas gas;
  if (!result.layers.empty()) {
    for (const LayerResult& layer : result.layers) {
      const Gas own = gas_of(layer.own);
      gas.hydrogen += own.hydrogen;
      gas.oxygen += own.oxygen;
      gas.chlorine += own.chlorine;
    }
    return gas;
  }
  double charge = 0;
  for (const StepResult& step : result.steps)
    charge += step.cell.current * step.duration;
  const Solution& solution = result.used.solution;
  const double lost = std::max(0.0, 1 - mean_efficiency(result));
  gas.hydrogen = gas_volume(gas_made(lost * charge, 2));
  const double inert = inert_share(result) * charge;
  gas.oxygen = gas_volume(gas_made(inert, 4));
  if (substances_in(solution).contains("chloride"))
    gas.chlorine = gas_volume(gas_made(inert, 2));
  return gas;
}

}  // namespace thinspot::solver
