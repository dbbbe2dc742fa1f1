#include "mesh/errors.hpp"
#include "mesh/millimetres.hpp"
#include "mesh/rounded_polygon.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

#include <algorithm>
#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

/// A flat disc, or one whose two faces lie below a raised rim.
struct Coin {
  double diameter, thickness;    ///< over all
  double rim_width, rim_height;  ///< 0 where it has none
  double edge, shoulder;         ///< radii: outer edge, inner edge of the rim
};

void check_rim(const Coin& c) {
  check_below("rim_width", c.rim_width, c.diameter / 2,
              "leaves no field in a diameter of " + in_mm(c.diameter));
  check_below("rim_height", c.rim_height, c.thickness / 2,
              "on both faces leaves no metal between them: the thickness of " +
                  in_mm(c.thickness) + " is that of the rim");
  check_fits("rim_radius", c.shoulder, std::min(c.rim_width, c.rim_height),
             "the rim is " + in_mm(c.rim_width) + " wide and " +
                 in_mm(c.rim_height) + " high");
  check_fits(
      "edge_radius", c.edge, c.rim_width - c.shoulder,
      "the top of the rim is " + in_mm(c.rim_width - c.shoulder) + " wide");
}

Coin checked(const Sizes& sizes) {
  Coin c{length_of(sizes, "diameter"),    length_of(sizes, "thickness"), 0, 0,
         radius_of(sizes, "edge_radius"), radius_of(sizes, "rim_radius")};
  const double least = std::min(c.diameter, c.thickness);
  check_fits("edge_radius", c.edge, least / 2,
             "two of them share " + in_mm(least));
  const bool width = sizes.contains("rim_width");
  const bool height = sizes.contains("rim_height");
  if (width != height)
    throw InputError(width ? "rim_height" : "rim_width",
                     "a raised rim has a width and a height",
                     "give both, or neither");
  if (!width && c.shoulder > 0)
    throw InputError("rim_radius", "is for a raised rim, and there is none",
                     "give rim_width and rim_height, or leave it out");
  if (!width) return c;
  c.rim_width = length_of(sizes, "rim_width");
  c.rim_height = length_of(sizes, "rim_height");
  check_rim(c);
  return c;
}

/// The rim's own faces take the edges, shoulders and roundings; what is named
/// after left and right is the field that lies between.
Loop rimmed(const Coin& c, const FaceNames& face) {
  const double x = c.thickness / 2, y = c.diameter / 2;
  const double field_x = x - c.rim_height, field_y = y - c.rim_width;
  const std::string &up = face.upper, &down = face.lower;
  return rounded_polygon({{{-x, -y}, c.edge, down, down},
                          {{x, -y}, c.edge, down, down},
                          {{x, -field_y}, c.shoulder, down, down},
                          {{field_x, -field_y}, 0, face.right, ""},
                          {{field_x, field_y}, 0, up, ""},
                          {{x, field_y}, c.shoulder, up, up},
                          {{x, y}, c.edge, up, up},
                          {{-x, y}, c.edge, up, up},
                          {{-x, field_y}, c.shoulder, up, up},
                          {{-field_x, field_y}, 0, face.left, ""},
                          {{-field_x, -field_y}, 0, down, ""},
                          {{-x, -field_y}, c.shoulder, down, down}},
                         "edge_radius");
}

/// Upright, thickness along x; flat where the section is turned about its
/// middle.
Outline coin_outline(const Sizes& sizes, Cut cut) {
  const Coin c = checked(sizes);
  const bool flat = cut == Cut::axisymmetric;
  if (c.rim_width > 0) {
    if (!flat)
      return {{rimmed(c, {"left", "right", "upper rim", "lower rim"})}};
    // A quarter turn: right comes up, the upper rim to the left.
    Loop lying = rimmed(c, {"lower face", "upper face", "rim", "rim"});
    for (Curve& curve : lying)
      for (Point* p : {&curve.from, &curve.to}) *p = {-p->y(), p->x()};
    return {{lying}};
  }
  if (flat)
    return {{rectangle(c.diameter, c.thickness, c.edge,
                       {"rim", "rim", "upper face", "lower face"}, false,
                       "edge_radius")}};
  return {{rectangle(c.thickness, c.diameter, c.edge,
                     {"left", "right", "upper rim", "lower rim"}, true,
                     "edge_radius")}};
}

/// The profile revolved: fields, shoulders, tops of the rim, edge, and the
/// quarter-round edges by Guldin's rule, outer ones bulging away from the axis
/// and inner ones towards it.
std::optional<double> coin_area(const Sizes& sizes) {
  const Coin c = checked(sizes);
  const double big = c.diameter / 2;
  const double top = big - c.edge;  // where the flat of the face ends
  const double edge = 2 * pi * big * (c.thickness - 2 * c.edge) +
                      2 * 2 * pi * (top * pi / 2 * c.edge + c.edge * c.edge);
  if (c.rim_width == 0) return 2 * pi * top * top + edge;
  const double field = big - c.rim_width, q = c.shoulder;
  const double foot = field + q;  // where the top of the rim begins
  return edge + 2 * pi * field * field +
         2 * 2 * pi * field * (c.rim_height - q) +
         2 * 2 * pi * (foot * pi / 2 * q - q * q) +
         2 * pi * (top * top - foot * foot);
}

}  // namespace

ShapeKind coin_shape() {
  return {"coin",
          {{"diameter", true, 0, "over all"},
           {"thickness", true, 0, "over all, at the rim where it is raised"},
           {"edge_radius", false, 0, "rounding between face and rim"},
           {"rim_width", false, 0, "of a rim raised on both faces"},
           {"rim_height", false, 0, "of that rim above the face"},
           {"rim_radius", false, 0, "rounding of that rim's inner edge"}},
          {},
          coin_outline,
          coin_area};
}

}  // namespace thinspot::mesh
