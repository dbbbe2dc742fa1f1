#pragma once

#include "viz/sweep_chart.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// Up to eight curves of a figure over one key, each with a colour, dashes and
/// signs of its own, named at its end where there is room and in the legend;
/// further curves are counted in words. A curve has gaps where there is no
/// result, crosses tell where; over words it is points alone.
/// @param where  what other keys were set to; may be empty
/// @returns SVG text, to be read down to 370 px
std::string sweep_curves(const SweptFigure& figure, const SweptKey& x,
                         const std::vector<SweepCurve>& curves,
                         const std::string& title, const std::string& where);

}  // namespace thinspot::viz
