#pragma once

#include "solver/for_laws.hpp"
#include "solver/laplace.hpp"
#include "solver/linear_solve.hpp"
#include "solver/uncondensed_response.hpp"

#include <Eigen/Core>

#include <memory>
#include <optional>
#include <vector>

namespace thinspot::solver {

/// On a mesh with too many nodes on electrodes to be condensed: a sparse factor
/// for each set of laws. Inside, nodes are numbered in one order of
/// elimination, found once.
class SparseResponse : public UncondensedResponse {
 public:
  /// @param stiffness  at conductivity 1, n x n
  /// @param order      of elimination; empty: one is looked for
  explicit SparseResponse(const SparseMatrix& stiffness,
                          const std::vector<int>& order = {});

  std::vector<int> order() const override { return order_; }

  BoundaryAnswer solve(const Electrodes& electrodes, double conductivity,
                       const LocalLaws& laws, const Eigen::MatrixXd& loads,
                       const Eigen::MatrixXd& held) const override;

  /// Where all columns are of the last answers for the laws that were asked for
  /// last, in that order, it is at hand, once.
  Inside everywhere(const Electrodes& electrodes,
                    const Eigen::MatrixXd& boundary) const override;

 private:
  struct Solved {
    Eigen::MatrixXd boundary, potential;  ///< rows on electrodes; by places
    double relative_residual = 0;
  };
  /// For one set of laws.
  struct Factored {
    HeldSystem system;
    std::vector<Eigen::Index> fixed;  ///< rows on electrodes that are held
    SparseMatrix at_fixed;            ///< the stiffness's rows there
  };
  const Factored& factored(const Electrodes& electrodes, double conductivity,
                           const LocalLaws& laws) const;
  std::vector<int> places(const Electrodes& electrodes) const;
  std::optional<Inside> at_hand(const Eigen::MatrixXd& boundary) const;

  std::vector<int> order_, place_;  ///< mesh node of each place, and back
  SparseMatrix stiffness_;          ///< by places
  mutable ForLaws<Factored> kept_;
  mutable std::vector<Solved> solved_;
};

}  // namespace thinspot::solver
