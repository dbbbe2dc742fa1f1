#pragma once

#include <string>
#include <vector>

namespace thinspot::viz {

/// At most two decimals, trailing zeros dropped, never "-0": for coordinates.
/// The same in every locale. @pre value is finite.
std::string short_number(double value);

/// Rounded to so many significant digits, no exponent between 1e-4 and 1e6:
/// "6.18", "12", "0.05", "1230".
/// @param keep_zeros  "0.30" where two digits are meant, else "0.3".
std::string significant(double value, int digits = 3, bool keep_zeros = false);

/// Digits that a value is worth whose 95 % band runs from low to high: two
/// where the band is wider than a tenth of the value, else three.
int digits_worth(double value, double low, double high);

/// A coating below a hundredth of a micrometre is none for any purpose.
bool is_hardly_any(double metres);

/// "8.9 um", "under 0.01 um", "dissolves" below zero; zeros kept.
/// @param metres  [m]
std::string micrometre_text(double metres, int digits);

/// Step of a scale over `range` in about `count` parts: 1, 2 or 5 times a
/// power of ten. @pre range > 0, count > 0.
double nice_step(double range, int count);

/// The largest of 1, 2 or 5 times a power of ten not above `value` > 0.
double nice_below(double value);

struct Tick {
  double value = 0;
  std::string label;
};

/// Multiples of a nice step inside low..high, about `count` of them, with as
/// many decimals as the step needs.
std::vector<Tick> ticks(double low, double high, int count);

}  // namespace thinspot::viz
