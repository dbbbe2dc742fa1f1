#pragma once

#include <string_view>

namespace thinspot::solver {

/// 25 degC, at which conductances are told [K].
inline constexpr double kRoomTemperature = 298.15;

/// An ion in much water at that temperature.
struct Ion {
  std::string_view name;
  int charge = 0;          ///< without sign
  double conductance = 0;  ///< of each equivalent [S m2/mol]
};

/// @returns nullptr where it is not in the table.
const Ion* find_ion(std::string_view name);

/// Diffusivity of an ion in much water [m2/s], by Nernst and Einstein:
///   D = R T lambda / (z F^2), lambda of an equivalent.
double diffusivity(const Ion& ion);

}  // namespace thinspot::solver
