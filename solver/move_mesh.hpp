#pragma once

#include "mesh/mesh.hpp"

#include <Eigen/Core>

#include <array>
#include <optional>
#include <vector>

namespace thinspot::solver {

/// Which way each node of a mesh may go when its boundary moves: along x, along
/// y. Nodes on straight walls, surfaces and axes that run along x or y slide on
/// them; on all other walls and on every solid they stay, or go where they are
/// told to.
struct Ties {
  std::vector<std::array<bool, 2>> held;  ///< of each node
};
Ties ties_of(const mesh::Mesh& mesh);

/// Moves boundary nodes and lets all others follow: each component of the
/// displacement solves Laplace's equation on the mesh, with nothing across the
/// walls that it slides on. Where triangles would fold, it goes there in
/// smaller moves, each on the mesh that the one before it has left.
/// @param ties  of the mesh, with the told nodes held
/// @param move  2 x nodes: where held nodes go [m]; of others not read
/// @param folded  if the mesh folds all the same: where [m]
/// @returns     false where it folds
bool move_nodes(mesh::Mesh& mesh, const Ties& ties,
                const Eigen::Matrix2Xd& move,
                std::optional<mesh::Point>& folded);

/// A triangle of the mesh that is flat or folded, by its first corner; none
/// where all are sound.
std::optional<mesh::Point> find_fold(const mesh::Mesh& mesh);

}  // namespace thinspot::solver
