#include "solver/dense.hpp"

#include "solver/dense_kernels.hpp"

#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::MatrixXd;

const DenseKernels& kernels() {
#ifdef THINSPOT_HAS_WIDE
  static const DenseKernels& best =
      __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma")
          ? *wide_kernels()
          : *plain_kernels();
  return best;
#else
  return *plain_kernels();
#endif
}

}  // namespace

DenseCholesky::DenseCholesky(MatrixXd matrix) : factor_(std::move(matrix)) {
  definite_ = kernels().factor(factor_.data(), factor_.rows());
}

MatrixXd DenseCholesky::solve(MatrixXd right) const {
  kernels().solve(factor_.data(), factor_.rows(), right.data(), right.cols());
  return right;
}

MatrixXd dense_product(const MatrixXd& a, const MatrixXd& b) {
  MatrixXd c(a.rows(), b.cols());
  kernels().multiply(a.data(), b.data(), c.data(), a.rows(), a.cols(),
                     b.cols());
  return c;
}

MatrixXd dense_transposed_product(const MatrixXd& a, const MatrixXd& b) {
  MatrixXd c(a.cols(), b.cols());
  kernels().multiply_transposed(a.data(), b.data(), c.data(), a.cols(),
                                a.rows(), b.cols());
  return c;
}

}  // namespace thinspot::solver
