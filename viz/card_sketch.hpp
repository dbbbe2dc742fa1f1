#pragma once

#include "solver/result.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// Height that a sketch needs to be of use, and beyond which it gains nothing.
inline constexpr double kLeastSketch = 200, kMostSketch = 330;

/// Tank and part in black on white as they stand in the first step, or in the
/// first that has more anodes in the tank: level, holders, poles, faces tagged
/// with letters, and the distances that a ruler measures.
/// @param room  on the sheet, at least kLeastSketch high
/// @pre result.steps and result.parts are not empty
void draw_card_sketch(Svg& svg, const solver::Result& result,
                      const TextBox& room);

/// What stands below it: key of the letters, signs, and in which the tanks of
/// later layers differ.
/// @param brief  of those tanks the free distances alone
std::vector<std::string> sketch_notes(const solver::Result& result,
                                      bool brief = false);

}  // namespace thinspot::viz
