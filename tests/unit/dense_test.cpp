// Full matrices by narrow and wide registers, against what they are made of.
#include "solver/dense.hpp"
#include "solver/dense_kernels.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Core>

#include <cmath>
#include <limits>
#include <vector>

using namespace thinspot::solver;
using Eigen::Index;
using Eigen::MatrixXd;

namespace {

constexpr double kEps = std::numeric_limits<double>::epsilon();

MatrixXd numbers(Index rows, Index columns) {
  MatrixXd m(rows, columns);
  for (Index j = 0; j < columns; ++j)
    for (Index i = 0; i < rows; ++i)
      m(i, j) = std::sin(static_cast<double>(1 + i * 7 + j * j * 3));
  return m;
}

/// b^T b and something on its diagonal.
MatrixXd definite(Index n) {
  const MatrixXd b = numbers(n, n);
  MatrixXd m = MatrixXd::Identity(n, n);
  for (Index j = 0; j < n; ++j)
    for (Index i = 0; i < n; ++i) m(i, j) += b.col(i).dot(b.col(j));
  return m;
}

std::vector<const DenseKernels*> kernels() {
  std::vector<const DenseKernels*> all{plain_kernels()};
#if defined(__x86_64__)
  if (__builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma"))
    all.push_back(wide_kernels());
#endif
  return all;
}

}  // namespace

TEST_CASE("dense products are sums of products, by any registers") {
  for (const DenseKernels* k : kernels())
    for (const Index rows : {1, 7, 64, 131})
      for (const Index inner : {1, 5, 97})
        for (const Index columns : {1, 2, 9, 40}) {
          const MatrixXd a = numbers(rows, inner), b = numbers(inner, columns);
          const MatrixXd turned = a.transpose();
          MatrixXd c(rows, columns), d(rows, columns), sum(rows, columns);
          for (Index i = 0; i < rows; ++i)
            for (Index j = 0; j < columns; ++j) {
              sum(i, j) = 0;
              for (Index m = 0; m < inner; ++m) sum(i, j) += a(i, m) * b(m, j);
            }
          k->multiply(a.data(), b.data(), c.data(), rows, inner, columns);
          k->multiply_transposed(turned.data(), b.data(), d.data(), rows, inner,
                                 columns);
          // Each sum rounds `inner` times at most, in either order.
          const double near = 2 * static_cast<double>(inner * inner) * kEps;
          CHECK((c - sum).cwiseAbs().maxCoeff() <= near);
          CHECK((d - sum).cwiseAbs().maxCoeff() <= near);
        }
}

TEST_CASE("a dense factor solves what it is the factor of") {
  for (const DenseKernels* k : kernels())
    for (const Index n : {1, 6, 50, 163})
      for (const Index columns : {1, 2, 33}) {
        const MatrixXd a = definite(n), x = numbers(n, columns);
        MatrixXd b(n, columns);
        plain_kernels()->multiply(a.data(), x.data(), b.data(), n, n, columns);
        MatrixXd factor = a, found = b, rest(n, columns);
        REQUIRE(k->factor(factor.data(), n));
        k->solve(factor.data(), n, found.data(), columns);
        plain_kernels()->multiply(a.data(), found.data(), rest.data(), n, n,
                                  columns);
        // Backward stable: Higham, Accuracy and Stability of Numerical
        // Algorithms, theorem 10.4: 4 n (3 n + 1) eps of the norms.
        const auto m = static_cast<double>(n);
        CHECK((rest - b).norm() <=
              4 * m * (3 * m + 1) * kEps * a.norm() * found.norm());
        CHECK((found - x).norm() <= 1e-6 * x.norm());
      }
}

TEST_CASE("a matrix that is not definite is said to be none") {
  MatrixXd a = definite(40);
  a(17, 17) = -1;
  for (const DenseKernels* k : kernels()) {
    MatrixXd factor = a;
    CHECK_FALSE(k->factor(factor.data(), 40));
  }
  CHECK_FALSE(DenseCholesky(a).is_definite());
  CHECK(DenseCholesky(definite(40)).is_definite());
}

TEST_CASE("DenseCholesky and the products say what the kernels say") {
  const MatrixXd a = definite(30), x = numbers(30, 4);
  const MatrixXd b = dense_product(a, x);
  CHECK((DenseCholesky(a).solve(b) - x).norm() < 1e-9);
  CHECK((dense_transposed_product(a, x) - b).norm() < 1e-9);
}
