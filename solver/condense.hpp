#pragma once

#include "solver/electrodes.hpp"
#include "solver/laplace.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// Schur complement of the stiffness onto the electrode nodes:
///   S = A_bb - A_bi A_ii^-1 A_ib,   nb x nb, in boundary rows.
/// Symmetric, positive semi-definite; S applied to ones is zero. It is read
/// off the trailing block of one sparse Cholesky factor of A + K with the
/// electrode nodes ordered last, K being the electrodes' mass over a length of
/// their own, which makes the matrix definite: S = L_bb L_bb^T - K_bb.
/// @pre  every connected piece of liquid touches an electrode.
/// @throws NoResultError where the factor cannot be had.
Eigen::MatrixXd condense(const SparseMatrix& stiffness,
                         const Electrodes& electrodes);

}  // namespace thinspot::solver
