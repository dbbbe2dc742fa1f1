#pragma once

#include "solver/case.hpp"

namespace thinspot::solver {

/// Faraday constant [C/mol], exact since the 2019 SI: e N_A.
inline constexpr double kFaraday = 96485.33212;

/// Thickness that grows each second at 1 A/m2 and full efficiency [m3/C].
///   M / (n F rho)
double growth_per_charge(const Metal& metal);

/// Mass deposited by one coulomb at full efficiency, M / (n F) [kg/C].
double mass_per_charge(const Metal& metal);

/// Thickness that a current density of 1 A/m2 leaves in all steps [m3/A].
double growth_per_density(const Case& c);

}  // namespace thinspot::solver
