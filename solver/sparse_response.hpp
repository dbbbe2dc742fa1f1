#pragma once

#include "solver/electrode_laws.hpp"
#include "solver/electrodes.hpp"
#include "solver/laplace.hpp"
#include "solver/linear_solve.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <vector>

namespace thinspot::solver {

/// What a Response does on a mesh with too many nodes on electrodes to be
/// condensed: a sparse factor for each set of laws. Inside, nodes are numbered
/// in one order of elimination, found once.
class SparseResponse {
 public:
  /// @param stiffness  at conductivity 1, n x n
  explicit SparseResponse(const SparseMatrix& stiffness);

  /// As Response::solve.
  BoundaryAnswer solve(const Electrodes& electrodes, double conductivity,
                       const LocalLaws& laws, const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const;

  /// As Response::everywhere. Where all columns are of the last answers for the
  /// laws that were asked for last, in that order, it is at hand, once.
  Inside everywhere(const Electrodes& electrodes,
                    const Eigen::MatrixXd& boundary) const;

 private:
  struct Solved {
    Eigen::MatrixXd boundary, potential;  ///< rows on electrodes; by places
    double relative_residual = 0;
  };
  /// The factor for the laws that were asked for last.
  struct Kept {
    double conductivity = 0;
    LocalLaws laws;
    HeldSystem system;
    std::vector<Eigen::Index> fixed;  ///< rows on electrodes that are held
    SparseMatrix at_fixed;            ///< the stiffness's rows there
  };
  const Kept& kept(const Electrodes& electrodes, double conductivity,
                   const LocalLaws& laws) const;
  std::vector<int> places(const Electrodes& electrodes) const;
  std::optional<Inside> at_hand(const Eigen::MatrixXd& boundary) const;

  std::vector<int> order_, place_;  ///< mesh node of each place, and back
  SparseMatrix stiffness_;          ///< by places
  mutable std::shared_ptr<const Kept> kept_;
  mutable std::vector<std::shared_ptr<const Solved>> solved_;
};

}  // namespace thinspot::solver
