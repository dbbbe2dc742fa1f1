#pragma once

#include "solver/result.hpp"
#include "viz/svg.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// A thin or heavy spot as both pictures show it: same sign, same number.
struct Mark {
  solver::Spot spot;
  bool thin = true;
  std::string label;  ///< "1", "2" … thin; "A", "B" … heavy
};

/// The part that the pictures show: the first, which the verdict is about.
/// @pre result.parts is not empty.
const solver::PartResult& shown_part(const solver::Result& result);

/// Thin ones first, at most `each` of either kind. None where the coating
/// differs by less than 3 % of its mean: no spot is worth naming then.
std::vector<Mark> marks_of(const solver::PartResult& part,
                           std::size_t each = 5);

/// "8.9 um" with the digits that its band is worth.
std::string thickness_text(const solver::PartResult& part, const Mark& mark);

/// Draws a mark's sign about `centre`: a triangle, tip towards `tip`, for a
/// thin spot, a square for a heavy one.
void draw_sign(Svg& svg, const Mark& mark, Point centre, Point tip);

inline constexpr double sign_size = 9;  ///< page units

TextStyle mark_text(const Mark& mark);

}  // namespace thinspot::viz
