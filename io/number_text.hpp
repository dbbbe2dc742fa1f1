#pragma once

#include "solver/interval.hpp"

#include <string>

namespace thinspot::io {

/// A number for files: rounded to six significant digits, never -0.
double six_digits(double value);

/// Value and unit, with the 95 % band in brackets where the band is wider than
/// the rounding, all to the same place: "5.73 µm", "5.7 µm (5.1 to 6.4)",
/// "5.40 µm (5.10 to 5.53)".
/// @param band  in the same unit as the value; low == high: nothing uncertain
std::string banded(double value, const solver::Interval& band,
                   const std::string& unit);

/// A thickness in micrometres. @param metres, band  [m]
std::string micrometres(double metres, int count = 3);
std::string micrometres(double metres, const solver::Interval& band);

/// "45 s", "40 min", "3 h 20 min".
std::string duration_text(double seconds);

/// An estimate of time, rounded up to whole minutes where it has many.
std::string time_estimate(double seconds);

}  // namespace thinspot::io
