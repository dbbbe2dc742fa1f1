#include "mesh/millimetres.hpp"
#include "mesh/rounded_polygon.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

namespace thinspot::mesh {

namespace {

struct Channel {
  double width, depth, wall;
  double bottom, outside, edge;  ///< radii
};

Channel checked(const Sizes& sizes) {
  const Channel c{
      length_of(sizes, "width"),          length_of(sizes, "depth"),
      length_of(sizes, "wall"),           radius_of(sizes, "bottom_radius"),
      radius_of(sizes, "outside_radius"), radius_of(sizes, "edge_radius")};
  check_below("wall", c.wall, c.width / 2,
              "leaves no mouth in a width of " + in_mm(c.width));
  check_below("wall", c.wall, c.depth,
              "leaves no recess in a depth of " + in_mm(c.depth));
  const double mouth = c.width - 2 * c.wall, recess = c.depth - c.wall;
  check_fits("edge_radius", c.edge, std::min(c.wall / 2, recess),
             "a lip is " + in_mm(c.wall) + " across, the recess " +
                 in_mm(recess) + " deep");
  check_fits("bottom_radius", c.bottom, mouth / 2,
             "the recess is " + in_mm(mouth) + " wide");
  check_fits("bottom_radius", c.bottom, recess - c.edge,
             "the wall inside is straight for " + in_mm(recess - c.edge));
  check_fits("outside_radius", c.outside,
             std::min(c.width / 2, c.depth - c.edge),
             "the channel is " + in_mm(c.width) + " wide and " +
                 in_mm(c.depth) + " deep");
  check_corner_holds(c.wall, c.bottom, c.outside);
  return c;
}

/// Turned about its middle the channel is a cup with one wall all around.
struct Names {
  std::string left_outside, right_outside, left_lip, right_lip, left_wall,
      right_wall, underside;
};

Names names(Cut cut) {
  if (cut == Cut::axisymmetric)
    return {"outside", "outside", "lip", "lip", "wall", "wall", "underside"};
  return {"left outside",
          "right outside",
          "left lip",
          "right lip",
          "left wall",
          "right wall",
          cut == Cut::plan ? "back" : "underside"};
}

Outline channel_outline(const Sizes& sizes, Cut cut) {
  const Channel c = checked(sizes);
  const Names face = names(cut);
  const double x = c.width / 2, y = c.depth / 2;
  const double inner = x - c.wall, floor = c.wall - y;
  return {{rounded_polygon(
      {{{-x, -y}, c.outside, face.underside, face.underside},
       {{x, -y}, c.outside, face.right_outside, face.underside},
       {{x, y}, c.edge, face.right_lip, face.right_lip},
       {{inner, y}, c.edge, face.right_wall, face.right_lip},
       {{inner, floor}, c.bottom, "bottom", "bottom"},
       {{-inner, floor}, c.bottom, face.left_wall, "bottom"},
       {{-inner, y}, c.edge, face.left_lip, face.left_lip},
       {{-x, y}, c.edge, face.left_outside, face.left_lip}},
      "outside_radius")}};
}

/// How long the channel is, the section does not tell.
std::optional<double> channel_area(const Sizes&) { return std::nullopt; }

}  // namespace

ShapeKind channel_shape() {
  return {
      "channel",
      {{"width", true, 0, "along x, over all"},
       {"depth", true, 0, "along y, over all; the mouth is above"},
       {"wall", true, 0, "thickness of walls and bottom"},
       {"bottom_radius", false, 0, "inside, where the walls meet the bottom"},
       {"outside_radius", false, 0, "of the outer corners at the bottom"},
       {"edge_radius", false, 0, "rounding of the edges of the lips"}},
      {},
      channel_outline,
      channel_area};
}

}  // namespace thinspot::mesh
