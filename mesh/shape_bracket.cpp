#include "mesh/millimetres.hpp"
#include "mesh/rounded_polygon.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

#include <algorithm>

namespace thinspot::mesh {

namespace {

struct Bracket {
  double leg_1, leg_2, thickness;
  double inside, outside, end;  ///< radii
};

Bracket checked(const Sizes& sizes) {
  const Bracket b{
      length_of(sizes, "leg_1"),          length_of(sizes, "leg_2"),
      length_of(sizes, "thickness"),      radius_of(sizes, "inside_radius"),
      radius_of(sizes, "outside_radius"), radius_of(sizes, "end_radius")};
  const double leg = std::min(b.leg_1, b.leg_2);
  check_below("thickness", b.thickness, leg,
              "leaves no inside corner: the shorter leg is " + in_mm(leg) +
                  " over all");
  const double free = leg - b.thickness;
  check_fits("end_radius", b.end, std::min(b.thickness / 2, free),
             "a leg's end is " + in_mm(b.thickness) + " across");
  check_fits(
      "inside_radius", b.inside, free - b.end,
      "the shorter leg has " + in_mm(free - b.end) + " of straight inside");
  check_fits(
      "outside_radius", b.outside, leg - b.end,
      "the shorter leg has " + in_mm(leg - b.end) + " of straight outside");
  check_corner_holds(b.thickness, b.inside, b.outside);
  return b;
}

Outline bracket_outline(const Sizes& sizes, Cut) {
  const Bracket b = checked(sizes);
  const double left = -b.leg_1 / 2, right = b.leg_1 / 2;
  const double low = -b.leg_2 / 2, high = b.leg_2 / 2;
  const double t = b.thickness;
  return {{rounded_polygon(
      {{{left, low}, b.outside, "outside of leg 1", "outside corner"},
       {{right, low}, b.end, "leg 1 end", "leg 1 end"},
       {{right, low + t}, b.end, "inside of leg 1", "leg 1 end"},
       {{left + t, low + t}, b.inside, "inside of leg 2", "inside corner"},
       {{left + t, high}, b.end, "leg 2 end", "leg 2 end"},
       {{left, high}, b.end, "outside of leg 2", "leg 2 end"}},
      "outside_radius")}};
}

/// How broad the legs are, the section does not tell.
std::optional<double> bracket_area(const Sizes&) { return std::nullopt; }

}  // namespace

ShapeKind bracket_shape() {
  return {"bracket",
          {{"leg_1", true, 0, "along x, over all"},
           {"leg_2", true, 0, "along y, over all"},
           {"thickness", true, 0, "of both legs"},
           {"inside_radius", false, 0, "rounding of the inside corner"},
           {"outside_radius", false, 0, "rounding of the outside corner"},
           {"end_radius", false, 0, "rounding of the edges of both leg ends"}},
          {},
          bracket_outline,
          bracket_area};
}

}  // namespace thinspot::mesh
