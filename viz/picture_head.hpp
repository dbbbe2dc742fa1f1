#pragma once

#include "solver/result.hpp"
#include "viz/svg.hpp"

#include <string>
#include <string_view>

namespace thinspot::viz {

/// Of pictures that are narrow, so that letters stay large on a phone.
inline constexpr double narrow_width = 440;

/// The case's title, or a stand-in where it has none.
std::string picture_title(const solver::Case& c);

/// Title and a line of small print. @returns where they end.
double draw_head(Svg& svg, const std::string& title, std::string_view line);

/// Likewise, with the case's own title.
double draw_head(Svg& svg, const solver::Case& c, std::string_view line);

/// Title and a line of what was done: "0.33 A, 1.2 V, 40 min".
/// @returns where they end.
double draw_head(Svg& svg, const solver::Result& result, std::string_view what);

}  // namespace thinspot::viz
