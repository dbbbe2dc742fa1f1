#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// Of water at 20 degC [kg/m3].
inline constexpr double kWaterDensity = 998.2;

/// What a compound makes of the acidity of the water that it is in.
enum class Acidity {
  strong_acid,
  weak_acid,
  acid_salt,
  neutral,
  weak_base,
  strong_base,
};

/// Measured conductivity of one compound alone in water.
struct ConductivityTable {
  std::vector<double> mass_fraction;  ///< without water of crystallization
  std::vector<double> conductivity;   ///< [S/m]
  double temperature = 293.15;        ///< [K]
  std::string source;
};

/// A salt, acid or base as it is weighed, with what is known of it in water.
struct Compound {
  std::string name;
  std::vector<std::string> spellings;
  std::string formula;
  double molar_mass = 0;      ///< water of crystallization included [kg/mol]
  int water = 0;              ///< molecules of it in a formula unit
  std::string cation, anion;  ///< empty: no ions that conduct
  int cations = 0, anions = 0;
  Acidity acidity = Acidity::neutral;
  std::string metal;  ///< that one atom of is in it; empty: none
  std::vector<std::string> contains;  ///< as in Solution::contains
  /// By which a kilogram without its water makes water swell [m3/kg].
  double apparent_volume = 0.3e-3;
  std::optional<double> solubility;  ///< near 20 degC [kg/m3 of solution]
  std::vector<double> strengths;     ///< mass fractions as sold
  std::vector<double> densities;     ///< of those [kg/m3]
  ConductivityTable table;           ///< empty: none
  std::string like;                  ///< compound whose table serves
  double spread = 0;                 ///< of its conductivity, relative, 95 %
  Quantity per_kelvin{0.02, 0.01};   ///< d ln conductivity / dT [1/K]
  std::string source;
};

/// Mass of a mole without its water of crystallization [kg/mol].
double dry_molar_mass(const Compound& compound);

/// Density of the ware of that strength [kg/m3], between those known;
/// nothing where none is.
std::optional<double> density_at(const Compound& compound, double strength);

/// The one that has that name or spelling; nullptr where none has.
const Compound* find_compound(const std::vector<Compound>& all,
                              const std::string& name);

/// A compound and how much of it is in the solution.
struct Dose {
  const Compound* compound = nullptr;
  double concentration = 0;  ///< [mol/m3]
};

}  // namespace thinspot::solver
