#pragma once

#include "solver/laplace.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Evidence that a solve can be trusted; an `info()` alone is none.
struct SolveReport {
  Eigen::Index unknowns = 0;
  double relative_residual = 0;  ///< |A x - b| / (|A| |x| + |b|)
};

/// Solves matrix * x = right for the nodes that are not held, columns at once.
/// @param matrix     n x n, symmetric, definite on the free nodes
/// @param held       nodes whose value in `solution` is given
/// @param solution   n x m; in: held values; out: all values
/// @throws NoResultError where the matrix is not definite.
SolveReport solve_with_held(const SparseMatrix& matrix,
                            const std::vector<bool>& held,
                            const Eigen::MatrixXd& right,
                            Eigen::MatrixXd& solution);

/// Solves a small symmetric positive definite system.
/// @throws NoResultError where it is not definite.
Eigen::VectorXd solve_definite(const SparseMatrix& matrix,
                               const Eigen::VectorXd& right);

}  // namespace thinspot::solver
