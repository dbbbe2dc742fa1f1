#include "solver/bath.hpp"

#include "solver/deposit.hpp"
#include "solver/gas.hpp"

#include <cmath>

namespace thinspot::solver {

double metal_in(const Metal& metal, double concentration, double volume) {
  return concentration * volume * metal.molar_mass;
}

Quantity metal_moved(const Metal& metal, double charge,
                     const Quantity& efficiency) {
  const double all = mass_per_charge(metal) * charge;
  return {all * efficiency.value, all * efficiency.plus_minus};
}

double charge_for(const Metal& metal, double mass, const Quantity& efficiency) {
  return mass / (mass_per_charge(metal) * efficiency.value);
}

double share_left(double metal, double taken_by_run, int runs) {
  return 1 - runs * taken_by_run / metal;
}

int runs_down_to(double share, double metal, double taken_by_run) {
  constexpr double kRounding = 1e-9;
  return static_cast<int>(
      std::floor((1 - share) * metal / taken_by_run + kRounding));
}

double anode_life(const Metal& metal, double mass, double current) {
  return kUsableAnode * mass / (mass_per_charge(metal) * current);
}

Dissolving dissolved(const Metal& metal, double current, double time,
                     const Quantity& efficiency) {
  Dissolving d;
  d.charge = current * time;
  d.mass = metal_moved(metal, d.charge, efficiency);
  // One hydrogen ion for each charge of the metal's ion.
  const double ions = d.charge / kFaraday;
  d.acid = {ions * efficiency.value, ions * efficiency.plus_minus};
  d.hydrogen = {gas_made(d.charge, 2), 0};
  return d;
}

}  // namespace thinspot::solver
