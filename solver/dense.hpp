#pragma once

#include <Eigen/Core>

namespace thinspot::solver {

/// Cholesky factor of a full, symmetric, positive definite matrix; by the
/// widest registers that the processor has, whatever the program was compiled
/// for.
class DenseCholesky {
 public:
  DenseCholesky() = default;
  /// @param matrix  n x n, of which the lower triangle is read
  explicit DenseCholesky(Eigen::MatrixXd matrix);

  bool is_definite() const { return definite_; }
  /// @pre definite
  /// @param right  n x k
  Eigen::MatrixXd solve(Eigen::MatrixXd right) const;

 private:
  Eigen::MatrixXd factor_;
  bool definite_ = true;
};

/// a b of large matrices, likewise.
Eigen::MatrixXd dense_product(const Eigen::MatrixXd& a,
                              const Eigen::MatrixXd& b);
/// a^T b
Eigen::MatrixXd dense_transposed_product(const Eigen::MatrixXd& a,
                                         const Eigen::MatrixXd& b);

}  // namespace thinspot::solver
