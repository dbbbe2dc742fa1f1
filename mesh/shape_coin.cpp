#include "mesh/shapes.hpp"

#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

Outline coin_outline(const Sizes& sizes, Cut cut) {
  const double diameter = sizes.at("diameter");
  const double thickness = sizes.at("thickness");
  const double edge = size_or_zero(sizes, "edge_radius");
  if (cut == Cut::axisymmetric)
    return {{rectangle(diameter, thickness, edge,
                       {"rim", "rim", "upper face", "lower face"}, false,
                       "edge_radius")}};
  return {{rectangle(thickness, diameter, edge,
                     {"left", "right", "upper rim", "lower rim"}, true,
                     "edge_radius")}};
}

/// Two flat faces, the straight rim, and two quarter-round edges revolved.
std::optional<double> coin_area(const Sizes& sizes) {
  const double big = sizes.at("diameter") / 2;
  const double thickness = sizes.at("thickness");
  const double edge = size_or_zero(sizes, "edge_radius");
  const double flat = big - edge;
  return 2 * pi * flat * flat + 2 * pi * big * (thickness - 2 * edge) +
         2 * 2 * pi * (flat * pi / 2 * edge + edge * edge);
}

}  // namespace

ShapeKind coin_shape() {
  return {"coin",
          {{"diameter", true, 0, "over all"},
           {"thickness", true, 0, "over all"},
           {"edge_radius", false, 0, "rounding between face and rim"}},
          {},
          coin_outline,
          coin_area};
}

}  // namespace thinspot::mesh
