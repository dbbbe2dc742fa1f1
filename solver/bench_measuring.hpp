#pragma once

#include "solver/case.hpp"

#include <string>
#include <string_view>

namespace thinspot::solver {

/// How an input is measured at a bench, and how well that can be done with
/// care. Common practice, no source.
struct BenchMeasuring {
  double to = 0;          ///< half width, 95 %: of the value, or absolute
  bool absolute = false;  ///< `to` is in SI units
  std::string_view how;   ///< half a sentence: "weigh a token before and after"
};

/// @param key  as for_each_quantity has it
BenchMeasuring bench_measuring(const std::string& key);

/// Half width of 95 % that it leaves, in the quantity's unit; never more than
/// there is.
double measured_to(const std::string& key, const Quantity& stated);

}  // namespace thinspot::solver
