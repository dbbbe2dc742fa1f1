#pragma once

#include "solver/result.hpp"
#include "viz/svg.hpp"

namespace thinspot::viz {

/// Least, mean and largest thickness of each copy on a rack, side by side in
/// the order of their places; nothing where there is one part.
/// @param left, right  ends of the panel; words go on to the page's edge
/// @returns where it ends; `top` where there is nothing.
double draw_rack_strip(Svg& svg, const solver::Result& result, double left,
                       double right, double top);

/// Number of a copy's place on the rack, from 1.
int place_of(const solver::Result& result, std::size_t part);

}  // namespace thinspot::viz
