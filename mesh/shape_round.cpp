#include "mesh/errors.hpp"
#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

#include <fmt/format.h>

#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

/// A circle as two half arcs; clockwise where it bounds a hole.
Loop circle(double diameter, const std::string& face, bool hole) {
  const Point left(-diameter / 2, 0), right(diameter / 2, 0);
  if (hole) return {{right, left, -1, face}, {left, right, -1, face}};
  return {{left, right, 1, face}, {right, left, 1, face}};
}

/// Lying across an upright section, or standing in a level one, a rod is seen
/// end on; otherwise its length shows.
bool seen_end_on(const Sizes& sizes, Cut cut) {
  if (cut == Cut::plan) return true;
  const bool has_length = sizes.contains("length");
  if (cut == Cut::axisymmetric && !has_length)
    throw InputError("length", "is missing",
                     "an axisymmetric section shows the length; give it, as "
                     "in length = \"60 mm\"");
  return !has_length;
}

Outline rod_outline(const Sizes& sizes, Cut cut) {
  const double diameter = length_of(sizes, "diameter");
  if (seen_end_on(sizes, cut)) return {{circle(diameter, "side", false)}};
  const FaceNames faces =
      cut == Cut::axisymmetric
          ? FaceNames{"side", "side", "upper end", "lower end"}
          : FaceNames{"left side", "right side", "upper end", "lower end"};
  return {
      {rectangle(diameter, length_of(sizes, "length"),
                 radius_of(sizes, "end_radius"), faces, true, "end_radius")}};
}

std::optional<double> rod_area(const Sizes& sizes) {
  if (!sizes.contains("length")) return std::nullopt;
  const double d = length_of(sizes, "diameter"), l = length_of(sizes, "length");
  const double e = radius_of(sizes, "end_radius");
  const double flat = d / 2 - e;
  return 2 * pi * flat * flat + pi * d * (l - 2 * e) +
         2 * 2 * pi * (flat * pi / 2 * e + e * e);
}

Outline tube_outline(const Sizes& sizes, Cut cut) {
  const double outer = length_of(sizes, "diameter"),
               wall = length_of(sizes, "wall");
  const bool open = is_set(sizes, "open");
  check_below("wall", wall, outer / 2, "leaves no bore", "shape = \"rod\"");
  if (seen_end_on(sizes, cut)) {
    Outline result{{circle(outer, "outside", false)}};
    if (open) result.loops.push_back(circle(outer - 2 * wall, "bore", true));
    return result;
  }
  const double l = length_of(sizes, "length");
  if (!open)
    return {{rectangle(outer, l, 0,
                       {"outside", "outside", "upper end", "lower end"}, true,
                       "wall")}};
  const auto half = [&](double side) {
    const FaceNames faces =
        side > 0 ? FaceNames{"bore", "outside", "upper end", "lower end"}
                 : FaceNames{"outside", "bore", "upper end", "lower end"};
    Outline one{{rectangle(wall, l, 0, faces, true, "wall")}};
    return moved(one, 0, {side * (outer - wall) / 2, 0}).loops.front();
  };
  return {{half(+1), half(-1)}};
}

std::optional<double> tube_area(const Sizes& sizes) {
  if (!sizes.contains("length")) return std::nullopt;
  const double d = length_of(sizes, "diameter"), l = length_of(sizes, "length");
  const double bore = d - 2 * length_of(sizes, "wall");
  if (!is_set(sizes, "open")) return pi * d * l + 2 * pi * d * d / 4;
  return pi * (d + bore) * l + 2 * pi * (d * d - bore * bore) / 4;
}

}  // namespace

ShapeKind rod_shape() {
  return {"rod",
          {{"diameter", true, 0, "of the rod"},
           {"length", false, 0, "over all; left out, the rod is seen end on"},
           {"end_radius", false, 0, "rounding of the ends"}},
          {},
          rod_outline,
          rod_area};
}

ShapeKind tube_shape() {
  return {"tube",
          {{"diameter", true, 0, "outer"},
           {"wall", true, 0, "thickness of the wall"},
           {"length", false, 0, "over all; left out, the tube is seen end on"}},
          {"open"},
          tube_outline,
          tube_area};
}

}  // namespace thinspot::mesh
