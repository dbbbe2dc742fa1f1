#include "mesh/shape.hpp"

#include "mesh/millimetres.hpp"
#include "mesh/rounded_polygon.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

#include <algorithm>

namespace thinspot::mesh {

const std::vector<ShapeKind>& shape_kinds() {
  static const std::vector<ShapeKind> kinds{
      coin_shape(),  spoon_shape(), bracket_shape(), channel_shape(),
      plate_shape(), rod_shape(),   tube_shape()};
  return kinds;
}

const ShapeKind* find_shape(std::string_view name) {
  const auto& kinds = shape_kinds();
  const auto found =
      std::find_if(kinds.begin(), kinds.end(),
                   [&](const ShapeKind& k) { return k.name == name; });
  return found == kinds.end() ? nullptr : &*found;
}

bool is_set(const Sizes& sizes, std::string_view flag) {
  const auto found = sizes.find(flag);
  return found != sizes.end() && found->second != 0;
}

Loop rectangle(double width, double height, double corner_radius,
               const FaceNames& faces, bool corners_upright,
               const std::string& radius_key) {
  const double x = width / 2, y = height / 2, r = corner_radius;
  const double least = std::min(width, height);
  check_fits(radius_key, r, least / 2, "two of them share " + in_mm(least));
  // Roundings go with the upper and lower face, or with left and right.
  const bool up = corners_upright;
  return rounded_polygon(
      {{{-x, -y}, r, faces.lower, up ? faces.lower : faces.left},
       {{x, -y}, r, faces.right, up ? faces.lower : faces.right},
       {{x, y}, r, faces.upper, up ? faces.upper : faces.right},
       {{-x, y}, r, faces.left, up ? faces.upper : faces.left}},
      radius_key);
}

}  // namespace thinspot::mesh
