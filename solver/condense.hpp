#pragma once

#include "solver/electrodes.hpp"
#include "solver/laplace.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// The way from the electrode nodes back into the liquid: the interior part of
/// the factor that the condensed operator was read off.
struct Interior {
  std::vector<int> node;      ///< of the mesh, in the factor's order; the
                              ///< electrodes' last
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
/// Symmetric, positive semi-definite; S applied to ones is zero. It is read
/// off the trailing block of one sparse Cholesky factor of A + K with the
/// electrode nodes ordered last, K being the electrodes' mass over a length of
/// their own, which makes the matrix definite: S = L_bb L_bb^T - K_bb.
/// @pre  every connected piece of liquid touches an electrode.
/// Inside, the same factor gives u_i = -L_ii^-T L_bi^T u_b.
/// @throws NoResultError where the factor cannot be had.
Condensed condense(const SparseMatrix& stiffness, const Electrodes& electrodes);

}  // namespace thinspot::solver
