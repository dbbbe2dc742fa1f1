#include "solver/deposit.hpp"

namespace thinspot::solver {

double growth_per_charge(const Metal& metal) {
  return mass_per_charge(metal) / metal.density;
}

double mass_per_charge(const Metal& metal) {
  return metal.molar_mass / (metal.electrons * kFaraday);
}

double growth_per_density(const Case& c) {
  return growth_per_charge(c.solution.metal) * c.solution.efficiency.value *
         total_duration(c);
}

}  // namespace thinspot::solver
