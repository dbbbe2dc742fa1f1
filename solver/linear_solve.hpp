#pragma once

#include "solver/laplace.hpp"

#include <Eigen/Core>

#include <memory>
#include <vector>

namespace thinspot::solver {

/// Evidence that a solve can be trusted; an `info()` alone is none.
struct SolveReport {
  Eigen::Index unknowns = 0;
  double relative_residual = 0;  ///< |A x - b| / (|A| |x| + |b|)
};

/// |error| over its scale; itself where the scale is nothing.
double relative_residual(double error, double scale);

/// Whether nodes are numbered in an order in which a factor fills little, as by
/// elimination_order(), or such an order is to be looked for.
enum class Numbering { any, of_elimination };

/// A matrix whose nodes are partly held, factored once for any number of
/// right-hand sides.
class HeldSystem {
 public:
  /// @param matrix  n x n, symmetric, definite on the free nodes
  /// @param held    nodes whose value is given with each right-hand side
  /// @throws NoResultError where the matrix is not definite.
  HeldSystem(SparseMatrix matrix, const std::vector<bool>& held,
             Numbering numbering = Numbering::any);

  /// @param right     n x m
  /// @param solution  n x m; in: held values; out: all values
  SolveReport solve(const Eigen::MatrixXd& right,
                    Eigen::MatrixXd& solution) const;

 private:
  struct Factor;
  std::shared_ptr<const Factor> factor_;
  std::vector<int> free_, held_;  ///< nodes
  SparseMatrix inner_, between_;  ///< free x free, free x held
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
