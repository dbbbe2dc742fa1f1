// Compiled twice. For wide registers Eigen has another name (CMakeLists.txt):
// otherwise the linker would take one of two templates for both, and programs
// would end on processors that do not know the other's instructions.
#include "solver/dense_kernels.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>

namespace thinspot::solver {

namespace {

using Matrix = Eigen::MatrixXd;
using Given = Eigen::Map<const Matrix>;
using Made = Eigen::Map<Matrix>;

bool factor(double* a, long n) {
  Made matrix(a, n, n);
  const Eigen::LLT<Eigen::Ref<Matrix>> in_place(matrix);
  return in_place.info() == Eigen::Success;
}

void solve(const double* factor, long n, double* x, long columns) {
  const Given l(factor, n, n);
  Made right(x, n, columns);
  l.triangularView<Eigen::Lower>().solveInPlace(right);
  l.transpose().triangularView<Eigen::Upper>().solveInPlace(right);
}

void multiply(const double* a, const double* b, double* c, long rows,
              long inner, long columns) {
  Made(c, rows, columns).noalias() =
      Given(a, rows, inner) * Given(b, inner, columns);
}

void multiply_transposed(const double* a, const double* b, double* c, long rows,
                         long inner, long columns) {
  Made(c, rows, columns).noalias() =
      Given(a, inner, rows).transpose() * Given(b, inner, columns);
}

constexpr DenseKernels kKernels{factor, solve, multiply, multiply_transposed};

}  // namespace

#ifdef THINSPOT_WIDE
const DenseKernels* wide_kernels() { return &kKernels; }
#else
const DenseKernels* plain_kernels() { return &kKernels; }
#endif

}  // namespace thinspot::solver
