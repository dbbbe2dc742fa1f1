#pragma once

#include "mesh/triangulation.hpp"

namespace thinspot::mesh {

/// Triangles without area, which fast mesh generators leave beside sharp
/// corners with strong grading, are taken away by giving their longest edge to
/// the other two corners of the pair of triangles that share it.
/// @returns false where one stays, as when its longest edge is a boundary.
bool swap_flat_triangles(RawTriangles& raw);

}  // namespace thinspot::mesh
