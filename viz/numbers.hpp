#pragma once

#include <string>
#include <vector>

namespace thinspot::viz {

/// At most two decimals, trailing zeros dropped, never "-0": for coordinates.
/// The same in every locale. @pre value is finite.
std::string short_number(double value);

/// Rounded to so many significant digits, trailing zeros dropped, no exponent
/// between 1e-4 and 1e6: "6.18", "12", "0.05", "1230".
std::string significant(double value, int digits = 3);

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
