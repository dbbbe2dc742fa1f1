#pragma once

#include "viz/numbers.hpp"

#include <vector>

namespace thinspot::viz {

/// A positive value along an axis of the page, by amount or, where the values
/// lie far apart, by factor: a doubling is then as long everywhere.
struct AxisScale {
  double low = 0, high = 1;  ///< of the value
  double from = 0, to = 1;   ///< on the page
  bool by_factor = false;    ///< @pre then low > 0

  double page(double value) const;
  /// About so many numbers inside low..high, at least one.
  std::vector<Tick> numbers(int count) const;
};

/// One that shows all values with some room at either end; values that are
/// alike come to lie in its middle.
/// @param values  > 0; none: 0 to 1
/// @param far     by factor where the largest is more than so many times the
///                least
AxisScale around(const std::vector<double>& values, double from, double to,
                 double far);

/// Likewise for values of either sign: by factor only where all are positive,
/// and not below zero where none is.
AxisScale around_any(const std::vector<double>& values, double from, double to,
                     double far);

/// Likewise, beginning at `low` > 0.
AxisScale up_from(double low, const std::vector<double>& values, double from,
                  double to, double far);

}  // namespace thinspot::viz
