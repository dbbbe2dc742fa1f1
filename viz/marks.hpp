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
  std::string label;     ///< "1", "2" … of each kind; letters are the faces'
  std::size_t part = 0;  ///< index into Result::parts
};

/// The part that the pictures show, index into Result::parts: on a rack the
/// copy with the thinnest spot, the first of equals.
/// @pre result.parts is not empty.
std::size_t shown_index(const solver::Result& result);
const solver::PartResult& shown_part(const solver::Result& result);

/// Of all copies together: thin ones first, thinnest first, at most `each` of
/// either kind. None where the coating differs by less than 3 % of its mean:
/// no spot is worth naming then.
std::vector<Mark> marks_of(const solver::Result& result, std::size_t each = 5);

/// How many spots of a kind all copies have.
std::size_t spot_count(const solver::Result& result, bool thin);

/// "8.9 um" with the digits that its band is worth.
std::string thickness_text(const solver::Result& result, const Mark& mark);

/// "middle of the left face", on a rack with the copy's name before it.
std::string place_text(const solver::Result& result, const Mark& mark);

/// Draws a mark's sign about `centre`: a triangle, tip towards `tip`, for a
/// thin spot, a square for a heavy one.
void draw_sign(Svg& svg, const Mark& mark, Point centre, Point tip);

inline constexpr double sign_size = 9;  ///< page units

TextStyle mark_text(const Mark& mark);

}  // namespace thinspot::viz
