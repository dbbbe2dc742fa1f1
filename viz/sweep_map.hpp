#pragma once

#include "viz/sweep_chart.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// One figure over two keys as coloured cells, up to nine grids beside each
/// other with one scale of colours; further ones are counted in words. Cells
/// are equally large, whatever the distances of their values. A cell without a
/// result is hatched; the border of those that meet the target has ticks on
/// their side; the best point is marked; where there is room each cell holds
/// its number. Where cells would be too small they stand for several points
/// each, and the words say so.
/// @param panels  all over the same two keys with the same values
/// @returns SVG text, to be read down to 370 px
std::string sweep_map(const SweptFigure& figure,
                      const std::vector<SweepMap>& panels,
                      const std::string& title);

}  // namespace thinspot::viz
