#pragma once

#include "solver/compound.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// What one compound alone in water conducts.
struct LoneConductivity {
  double conductivity = 0;  ///< [S/m]
  double spread = 0;        ///< relative, 95 %, temperature included
  Quantity per_kelvin;      ///< [1/K]
  bool outside = false;     ///< above the last point of its table
  bool analogous = false;   ///< the table is another compound's
  std::string source;
};

/// Charges of the cations, for each formula unit that is dissolved; of a weak
/// acid or base 1.
int equivalents_per_unit(const Compound& compound);

/// [mol/m3 of charges]
double equivalents_of(const Dose& dose);

/// True where the compound, or the one that it is like, has a table.
bool has_table(const Compound& compound, const std::vector<Compound>& all);

/// @param equivalents  of this compound alone [mol/m3 of charges]; of a weak
///                     acid or base its concentration
/// @param temperature  [K]
/// @pre has_table
LoneConductivity lone_conductivity(const Compound& compound,
                                   const std::vector<Compound>& all,
                                   double equivalents, double temperature);

}  // namespace thinspot::solver
