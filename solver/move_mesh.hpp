#pragma once

#include "mesh/mesh.hpp"
#include "solver/linear_solve.hpp"

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

/// How inner nodes follow those that are told where to go: each component of
/// the displacement solves Laplace's equation on the mesh as it was when this
/// was made, with nothing across the walls that it slides on. Factored once for
/// any number of moves, of this mesh or of one that it has become.
class Following {
 public:
  /// @param ties  of the mesh, with the told nodes held
  Following(const mesh::Mesh& mesh, Ties ties);

  /// @param move  2 x nodes: where held nodes go [m]; of others not read
  /// @returns     the same with where all others go
  Eigen::Matrix2Xd operator()(const Eigen::Matrix2Xd& move) const;

  const Ties& ties() const { return ties_; }

 private:
  Ties ties_;
  std::vector<int> order_;         ///< mesh node of each place
  std::vector<HeldSystem> along_;  ///< x, y
};

/// Moves boundary nodes and lets all others follow. Where triangles would fold,
/// it goes there in smaller moves, each on the mesh that the one before it has
/// left.
/// @param follow  of this mesh, or of what it was before earlier moves
/// @param move    as Following takes it
/// @param folded  if the mesh folds all the same: where [m]
/// @returns       false where it folds
bool move_nodes(mesh::Mesh& mesh, const Following& follow,
                const Eigen::Matrix2Xd& move,
                std::optional<mesh::Point>& folded);

/// A triangle of the mesh that is flat or folded, by its first corner; none
/// where all are sound.
std::optional<mesh::Point> find_fold(const mesh::Mesh& mesh);

}  // namespace thinspot::solver
