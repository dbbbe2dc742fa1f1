#pragma once

#include "solver/compound.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// How a figure of a mixture was come by, from best to worst.
enum class Trust { measured, analogy, mixed, guess };

struct MixtureConductivity {
  Quantity conductivity;  ///< [S/m]
  Quantity per_kelvin;    ///< d ln / dT [1/K]
  Trust trust = Trust::measured;
  std::string source;
};

/// Conductivity of what is dissolved together, at a temperature.
///
/// One compound alone: its table, between its points in the logarithm; below
/// the first up to the ions' own conductance in much water; above the last
/// along its last stretch, and the band widens. Several: each conducts its
/// share of the equivalents times what it would conduct alone were all
/// equivalents its own, kappa = sum N_j/N kappa_j(N); the crowd slows all
/// alike. Sulfuric acid beside other sulfates loses hydrogen ions to
/// hydrogensulfate. Weak acids and bases add what they conduct alone, or
/// nothing.
/// @param all    the compounds that `like` names one of
/// @param temperature  [K]
/// @throws InputError with key "" where nothing in it conducts.
MixtureConductivity conductivity_of(const std::vector<Dose>& doses,
                                    const std::vector<Compound>& all,
                                    double temperature);

/// Share of the current that the ions of a metal carry in the solution, 0 to 1,
/// by the ions' conductance in much water.
double transference(const std::vector<Dose>& doses, const std::string& metal);

/// So much of a compound, as it is put into water.
struct Portion {
  const Compound* compound = nullptr;
  double dry_mass = 0;  ///< [kg]
  double water = 0;     ///< that comes with it [kg]
};

/// Volume that water swells to, or shrinks, with all that is put in, both at
/// room temperature [m3].
/// @param water  [m3]
double volume_of(double water, const std::vector<Portion>& portions);

}  // namespace thinspot::solver
