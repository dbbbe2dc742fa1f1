#pragma once

#include "mesh/kernel.hpp"
#include "mesh/liquid.hpp"
#include "mesh/triangulation.hpp"

namespace thinspot::mesh {

/// Triangles over the liquid's regions, made by Gmsh in a process of its own.
/// @throws NoResultError where it finds none
RawTriangles gmsh_triangles(const Liquid& liquid, const SizeField& size,
                            const Attempt& attempt);

}  // namespace thinspot::mesh
