#pragma once

#include "solver/laplace.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// The way from the electrode nodes back into the liquid: the factor of the
/// interior.
struct Interior {
  std::vector<int> node;      ///< in the factor's order; the electrodes' last
  std::vector<int> boundary;  ///< boundary row of each of those
  /// Columns of the interior nodes, lower triangle, diagonal first.
  std::vector<int> begin, index;
  std::vector<double> value;

  /// Potential at all nodes, one column a field.
  /// @param on_boundary  in boundary rows
  Eigen::MatrixXd extend(const Eigen::MatrixXd& on_boundary) const;
};

struct Condensed {
  Eigen::MatrixXd on_electrodes;  ///< nb x nb, in boundary rows
  Interior interior;
};

/// Schur complement of the stiffness onto the electrode nodes:
///   S = A_bb - A_bi A_ii^-1 A_ib,   nb x nb, in boundary rows.
/// Symmetric, positive semi-definite; S applied to ones is zero. With A_ii =
/// L_ii L_ii^T and L_bi = A_bi L_ii^-T it is A_bb - L_bi L_bi^T, and inside,
/// the same factor gives u_i = -L_ii^-T L_bi^T u_b.
/// @param row  of each node: its boundary row, or -1 inside the liquid
/// @param order  of elimination, the electrodes' nodes last; empty: one is
///               looked for
/// @pre  every connected piece of liquid touches an electrode.
/// @throws NoResultError where the factor cannot be had.
Condensed condense(const SparseMatrix& stiffness, const std::vector<int>& row,
                   const std::vector<int>& order = {});

}  // namespace thinspot::solver
