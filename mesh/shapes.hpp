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

/// Of a rectangle's sides.
struct FaceNames {
  std::string left, right, upper, lower;
};

/// Rectangle around the origin with a face for each side and all corners
/// rounded alike.
/// @param corners_upright  roundings belong to the upper and lower face, not to
///                         left and right
/// @param radius_key       that messages name
/// @throws InputError with that key where roundings do not fit.
Loop rectangle(double width, double height, double corner_radius,
               const FaceNames& faces, bool corners_upright,
               const std::string& radius_key);

/// False of a flag that was left out.
bool is_set(const Sizes& sizes, std::string_view flag);

}  // namespace thinspot::mesh
