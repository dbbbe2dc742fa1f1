#include "mesh/shape_sizes.hpp"
#include "mesh/shapes.hpp"

namespace thinspot::mesh {

namespace {

Outline plate_outline(const Sizes& sizes, Cut cut) {
  const FaceNames faces =
      cut == Cut::plan ? FaceNames{"left", "right", "far edge", "near edge"}
                       : FaceNames{"left", "right", "upper edge", "lower edge"};
  const double width = length_of(sizes, "width");
  const double height = length_of(sizes, "height");
  return {{rectangle(width, height, radius_of(sizes, "corner_radius"), faces,
                     width < height, "corner_radius")}};
}

std::optional<double> plate_area(const Sizes&) { return std::nullopt; }

}  // namespace

ShapeKind plate_shape() {
  return {"plate",
          {{"width", true, 0, "along x"},
           {"height", true, 0, "along y"},
           {"corner_radius", false, 0, "rounding of all corners"}},
          {},
          plate_outline,
          plate_area};
}

}  // namespace thinspot::mesh
