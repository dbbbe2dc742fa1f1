#pragma once

#include "solver/result.hpp"
#include "viz/chart_scales.hpp"
#include "viz/frame.hpp"
#include "viz/legend_column.hpp"
#include "viz/svg.hpp"

#include <string>

namespace thinspot::viz {

/// A dotted line just inside a part where its coating likely burns in any step;
/// thinner where it likely comes out dull.
void draw_burns(Svg& svg, const solver::Result& result,
                const solver::PartResult& part, const Frame& frame,
                const std::string& clip);

/// The same along the top of a panel over the unrolled surface.
void draw_burns(Svg& svg, const solver::Result& result,
                const solver::PartResult& part, const UnrolledScale& along,
                const TextBox& panel);

/// What these lines mean, where there are any.
void add_burn_entries(Svg& svg, LegendColumn& column,
                      const solver::Result& result);

}  // namespace thinspot::viz
