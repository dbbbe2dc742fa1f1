#pragma once

#include "mesh/liquid.hpp"
#include "mesh/size_field.hpp"
#include "mesh/triangulation.hpp"

namespace thinspot::mesh {

/// One try at a mesh.
struct Attempt {
  int algorithm = 0;  ///< Gmsh's number of it
  double share = 1;   ///< of the wanted sizes
};

/// Triangles over the liquid's regions, made by Gmsh in a process of its own.
/// @throws NoResultError where it finds none
RawTriangles gmsh_triangles(const Liquid& liquid, const SizeField& size,
                            const Attempt& attempt);

}  // namespace thinspot::mesh
