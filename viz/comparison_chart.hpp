#pragma once

#include "solver/comparison.hpp"

#include <string>

namespace thinspot::viz {

/// Thickness along the unrolled surface in both results, and below it what the
/// second has more or less than the first; on a rack of the copy where they
/// differ most.
/// @returns SVG text; needs no display
std::string comparison_chart(const solver::KeptResult& a,
                             const solver::KeptResult& b,
                             const solver::Comparison& comparison);

}  // namespace thinspot::viz
