#pragma once

#include "mesh/shape.hpp"

// One function a shape, each in a file of its own; shape.cpp lists them.
namespace thinspot::mesh {

ShapeKind coin_shape();
ShapeKind plate_shape();
ShapeKind rod_shape();
ShapeKind tube_shape();

/// Rectangle around the origin with a face for each side and all corners
/// rounded alike.
struct FaceNames {
  std::string left, right, upper, lower;
};
Loop rectangle(double width, double height, double corner_radius,
               const FaceNames& faces, bool corners_upright,
               const std::string& radius_key);

/// @returns the size where it was given, else 0.
double size_or_zero(const Sizes& sizes, std::string_view name);

}  // namespace thinspot::mesh
