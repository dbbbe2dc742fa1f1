#pragma once

#include <numbers>

/// From SI to the units that the summary, the tables and the pages print.
/// The case file's units are read in units.hpp; these are the way out.
namespace thinspot::io {

inline constexpr double kHour = 3600;  ///< [s]

inline double to_mm(double metres) { return metres * 1e3; }
inline double to_um(double metres) { return metres * 1e6; }
inline double to_cm2(double square_metres) { return square_metres * 1e4; }
inline double to_a_dm2(double amperes_per_m2) { return amperes_per_m2 * 1e-2; }
inline double to_grams(double kilograms) { return kilograms * 1e3; }
inline double to_g_cm3(double kg_per_m3) { return kg_per_m3 * 1e-3; }
inline double to_minutes(double seconds) { return seconds / 60.0; }
inline double to_degrees(double radians) {
  return radians * 180 / std::numbers::pi;
}
inline double to_deg_c(double kelvin) { return kelvin - 273.15; }

}  // namespace thinspot::io
