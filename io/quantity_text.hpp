#pragma once

#include "mesh/curve.hpp"
#include "solver/case.hpp"

#include <string>

// From SI to what stands in a case file, with as many digits as the value
// needs and no more than seven; read again it is within a millionth.
namespace thinspot::io {

std::string length_text(double metres);  ///< "35 mm"
std::string angle_text(double radians);  ///< "90 deg"
std::string time_text(double seconds);   ///< "20 min", "50 s"
std::string current_text(const solver::Quantity& amperes);  ///< "0.33 A"
/// "2 A/dm2"; @param density  [A/m2]
std::string density_text(const solver::Quantity& density);
std::string voltage_text(const solver::Quantity& volts);  ///< "1.5 V"
/// "40 min +- 1 min"; @param seconds  of a step
std::string duration_quantity(const solver::Quantity& seconds);
/// "6 rpm"; @param rate  [turns/s]
std::string rate_text(double rate);
/// "40 degC"; @param kelvin  of the solution
std::string temperature_text(double kelvin);
/// "20 S/m +- 3 S/m"; @param conductivity  [S/m]
std::string conductivity_quantity(const solver::Quantity& conductivity);

}  // namespace thinspot::io
