#pragma once

#include "viz/sweep_chart.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// Samples of a figure against each key that was varied, up to eight keys:
/// dots, evenly picked where there are many, with the median of all points in
/// bins along the key. What explains most of the figure's variance comes
/// first, with its share; shares are of each key alone (see
/// explained_share()). Points without a result are crosses along the bottom.
/// @param keys    their `values` are not looked at
/// @param at      of each key, one number a point; of words their index
/// @param values  of the figure, one a point
/// @returns SVG text, to be read down to 370 px
std::string sweep_scatter(const SweptFigure& figure,
                          const std::vector<SweptKey>& keys,
                          const std::vector<std::vector<double>>& at,
                          const std::vector<double>& values,
                          const std::string& title);

}  // namespace thinspot::viz
