#pragma once

#include "mesh/mesh.hpp"
#include "solver/corners.hpp"
#include "solver/symmetric_rows.hpp"

#include <memory>
#include <vector>

namespace thinspot::solver {

/// The stiffness of a large mesh in rows, in an order in which neighbours are
/// close in memory, but nodes on metal first: all that conductivities, laws and
/// held potentials change is then in the first rows.
struct MeshRows {
  std::vector<int> node;  ///< mesh node of each place
  /// As of assemble_stiffness.
  std::shared_ptr<const SymmetricRows> stiffness;
  Corners corners;  ///< numbered in the order of their places
};

/// @param first  mesh nodes in the order in which they come first
MeshRows mesh_rows(const mesh::Mesh& mesh, const std::vector<int>& first);

}  // namespace thinspot::solver
