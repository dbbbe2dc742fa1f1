#pragma once

#include "mesh/curve.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::mesh {

/// How the section cuts the tank: upright and planar, level and planar (seen
/// from above), or a half plane through the axis x = 0.
enum class Cut { side, plan, axisymmetric };

/// Named lengths of a shape [m], as the case file gives them.
using Sizes = std::map<std::string, double, std::less<>>;

/// A size that a shape knows, and what holds where the user leaves it out.
struct SizeKey {
  std::string_view name;
  bool required = true;
  double default_metres = 0;
  std::string_view meaning;
};

/// A parametric shape. Adding one is writing its functions and putting it into
/// the table of shape_kinds().
struct ShapeKind {
  std::string_view name;
  std::vector<SizeKey> sizes;
  /// Yes-or-no keys, such as "open" of a tube.
  std::vector<std::string_view> flags;
  /// Outline around the origin (centre of the bounding box) at turn 0.
  /// @throws InputError with keys relative to the solid ("diameter").
  Outline (*outline)(const Sizes&, Cut);
  /// Surface of the whole body [m2], where the sizes tell it.
  std::optional<double> (*real_area)(const Sizes&);
};

const std::vector<ShapeKind>& shape_kinds();

/// @returns nullptr where no shape has that name.
const ShapeKind* find_shape(std::string_view name);

}  // namespace thinspot::mesh
