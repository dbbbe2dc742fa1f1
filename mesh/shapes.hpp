#pragma once

#include "mesh/shape.hpp"

// One function a shape, each in a file of its own; shape.cpp lists them.
namespace thinspot::mesh {

ShapeKind bracket_shape();
ShapeKind channel_shape();
ShapeKind coin_shape();
ShapeKind plate_shape();
ShapeKind rod_shape();
ShapeKind spoon_shape();
ShapeKind tube_shape();

/// Rectangle around the origin with a face for each side and all corners
/// rounded alike.
struct FaceNames {
  std::string left, right, upper, lower;
};
Loop rectangle(double width, double height, double corner_radius,
               const FaceNames& faces, bool corners_upright,
               const std::string& radius_key);

bool is_set(const Sizes& sizes, std::string_view flag);

}  // namespace thinspot::mesh
