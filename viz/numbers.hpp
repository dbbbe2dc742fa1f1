#pragma once

#include <string>
#include <vector>

namespace thinspot::viz {

/// At most two decimals, trailing zeros dropped, never "-0": for coordinates.
/// The same in every locale. @pre value is finite.
std::string short_number(double value);

/// A coating below a hundredth of a micrometre is none for any purpose.
bool is_hardly_any(double metres);

/// "8.9 um", "under 0.01 um", "dissolves" below zero; zeros kept.
/// @param metres  [m]
std::string micrometre_text(double metres, int count);

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
