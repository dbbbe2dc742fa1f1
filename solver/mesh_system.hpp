#pragma once

#include "solver/lane_solve.hpp"
#include "solver/linear_solve.hpp"
#include "solver/mesh_rows.hpp"

#include <Eigen/Core>
#include <Eigen/SparseCore>

#include <memory>
#include <vector>

namespace thinspot::solver {

/// The system of a large mesh for one set of laws, solved by conjugate
/// gradients on a cycle over coarser and coarser ones: work and memory are
/// linear in the nodes. Fields are solved for two at a time, and on two
/// processors where there are; what comes out does not depend on that.
class MeshSystem {
 public:
  using Entries = std::vector<Eigen::Triplet<double>>;

  /// @param rows  whose first nodes are those that laws and held values are of
  /// @param laws  what they add to the stiffness, by these first nodes; of each
  ///              pair both entries
  /// @param held  of each of the first nodes
  MeshSystem(std::shared_ptr<const MeshRows> rows, const Entries& laws,
             std::vector<bool> held);

  struct Answer {
    Eigen::MatrixXd first;  ///< values at the first nodes
    /// What the stiffness makes of them, in rows that are held; else 0.
    Eigen::MatrixXd reaction;
    Eigen::MatrixXd everywhere;  ///< by mesh node, where asked for
    double relative_residual = 0;
    int cycles = 0;        ///< most that a field took
    bool iterated = true;  ///< false: it had to be factored
  };

  /// @param loads, values  first nodes x k; of the values only held rows are
  ///                       read
  /// @throws NoResultError where the iteration does not settle and the mesh is
  ///         too large to be factored.
  Answer solve(const Eigen::MatrixXd& loads, const Eigen::MatrixXd& values,
               bool everywhere = false) const;

  /// The same by a factor: what is left where the iteration does not settle.
  /// Three times the memory at least.
  Answer factored(const Eigen::MatrixXd& loads, const Eigen::MatrixXd& values,
                  bool everywhere = false) const;

 private:
  void tell(const LaneWork& work, Eigen::Index from, Answer& answer) const;

  std::shared_ptr<const MeshRows> rows_;
  std::shared_ptr<const LaneSystem> system_;
  double norm_ = 0;
};

}  // namespace thinspot::solver
