#pragma once

#include <string>

namespace thinspot {

/// A number for people: so many significant digits, no exponent in any
/// ordinary range, no trailing zeros ("5.73", "0.33", "124", "0"). The same in
/// every locale.
std::string digits(double value, int count = 3);

/// The same with trailing zeros kept, where a row of values stands together:
/// "3.0", "12".
std::string full_digits(double value, int count);

/// Rounded to that many places after the point, zeros kept; to tens, hundreds
/// … where negative. Never "-0".
std::string at_places(double value, int places);

/// Power of ten of a value rounded to `count` digits: 1 for 9.996 and three.
/// @pre value is finite and not 0
int exponent_of(double value, int count);

/// "12.50" -> "12.5", "3.00" -> "3", "-0" -> "0".
std::string without_trailing_zeros(std::string text);

}  // namespace thinspot
