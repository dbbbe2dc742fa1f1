#pragma once

#include "viz/chart_scales.hpp"
#include "viz/surface_marks.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// A stretch of the unrolled surface that gets no coating.
struct ChartGap {
  double left = 0, right = 0;  ///< on the page
  double from = 0, to = 0;     ///< arc [m]
  std::string why;
};

std::vector<ChartGap> chart_gaps(const solver::Result& result,
                                 const solver::PartResult& part,
                                 const UnrolledScale& along);

/// Shades the gaps over a panel.
void shade_gaps(Svg& svg, const std::vector<ChartGap>& gaps,
                const TextBox& panel);

/// The same shade about a point, for a legend.
void shade_swatch(Svg& svg, Point centre);

/// Says in each why it is bare, where the words fit.
/// @param taken  gets the room of the words
/// @returns the gaps too narrow for them, in order.
std::vector<ChartGap> label_gaps(Svg& svg, const std::vector<ChartGap>& gaps,
                                 const TextBox& panel,
                                 std::vector<TextBox>& taken);

}  // namespace thinspot::viz
