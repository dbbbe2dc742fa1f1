#pragma once

#include "solver/comparison.hpp"
#include "viz/chart_scales.hpp"
#include "viz/legend_column.hpp"
#include "viz/svg.hpp"

namespace thinspot::viz {

/// Room for the largest gain and loss, and for zero [um].
UprightScale difference_scale(const solver::PartComparison& c,
                              const TextBox& box);

/// What there is more, filled above a line of zero, and what there is less,
/// hatched below it; the places of most marked.
/// @param by  the part with the difference in place of its thickness [m]
void draw_difference(Svg& svg, const solver::Result& result,
                     const solver::PartResult& by,
                     const solver::PartComparison& c,
                     const UnrolledScale& along, const UprightScale& scale);

/// What the two kinds of area mean.
void add_difference_entries(Svg& svg, LegendColumn& one, LegendColumn& two);

}  // namespace thinspot::viz
