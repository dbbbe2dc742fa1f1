#include "solver/linear_solve.hpp"

#include "mesh/errors.hpp"

#include <Eigen/CholmodSupport>

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Simplicial below this size, supernodal above: with the reference BLAS the
/// two factor 205,000 nodes about a coin in the same time, and the simplicial
/// factor 176,000 about a rack in two thirds of it; its solves take half
/// everywhere (measured).
constexpr Index kSupernodalFrom = 200'000;

/// The rows of free nodes of a symmetric matrix, and of them the columns of
/// those nodes that are held, or of those that are not.
/// @param index  of each node among the held or the free
SparseMatrix rows_of_free(const SparseMatrix& matrix,
                          const std::vector<bool>& held, bool of_held,
                          const std::vector<int>& index, std::size_t rows,
                          std::size_t columns) {
  SparseMatrix taken(static_cast<Index>(rows), static_cast<Index>(columns));
  taken.resizeNonZeros(matrix.nonZeros());
  int next = 0, column = 0;
  for (std::size_t node = 0; node < held.size(); ++node) {
    if (held[node] != of_held) continue;
    taken.outerIndexPtr()[column++] = next;
    for (SparseMatrix::InnerIterator it(matrix, static_cast<Index>(node)); it;
         ++it) {
      const auto row = static_cast<std::size_t>(it.row());
      if (held[row]) continue;
      taken.innerIndexPtr()[next] = index[row];
      taken.valuePtr()[next++] = it.value();
    }
  }
  taken.outerIndexPtr()[column] = next;
  taken.resizeNonZeros(next);
  return taken;
}

/// |matrix x - b|, some columns at once: the matrix is fetched once for them.
/// @param matrix  symmetric, both triangles stored
double residual_norm(const SparseMatrix& matrix, const MatrixXd& x,
                     const MatrixXd& b) {
  constexpr Index kColumns = 8;
  if (x.cols() < kColumns) return (matrix * x - b).norm();
  using Rows = Eigen::Matrix<double, Eigen::Dynamic, kColumns, Eigen::RowMajor>;
  Rows some(x.rows(), kColumns), of_b(x.rows(), kColumns);
  double squares = 0;
  for (Index first = 0; first < x.cols(); first += kColumns) {
    const Index count = std::min(kColumns, x.cols() - first);
    some.setZero();
    of_b.setZero();
    some.leftCols(count) = x.middleCols(first, count);
    of_b.leftCols(count) = b.middleCols(first, count);
    for (Index row = 0; row < matrix.rows(); ++row) {
      Eigen::Matrix<double, 1, kColumns> rest = -of_b.row(row);
      for (SparseMatrix::InnerIterator it(matrix, row); it; ++it)
        rest += it.value() * some.row(it.row());
      squares += rest.squaredNorm();
    }
  }
  return std::sqrt(squares);
}

double residual_of(const SparseMatrix& matrix, const MatrixXd& x,
                   const MatrixXd& b) {
  return relative_residual(residual_norm(matrix, x, b),
                           matrix.norm() * x.norm() + b.norm());
}

}  // namespace

double relative_residual(double error, double scale) {
  return scale > 0 ? error / scale : error;
}

/// One of the two.
struct HeldSystem::Factor {
  Eigen::CholmodSimplicialLLT<SparseMatrix> simplicial;
  Eigen::CholmodSupernodalLLT<SparseMatrix> supernodal;
  bool is_small = true;

  Factor(const SparseMatrix& matrix, Numbering numbering)
      : is_small(matrix.rows() < kSupernodalFrom) {
    if (numbering == Numbering::of_elimination)
      for (cholmod_common* common :
           {&simplicial.cholmod(), &supernodal.cholmod()}) {
        common->nmethods = 1;
        common->method[0].ordering = CHOLMOD_NATURAL;
      }
    const auto info = is_small ? simplicial.compute(matrix).info()
                               : supernodal.compute(matrix).info();
    if (info != Eigen::Success)
      throw NoResultError(
          "the linear system is not definite: the mesh or the "
          "section is unsound");
  }

  MatrixXd solve(const MatrixXd& right) const {
    if (is_small) return simplicial.solve(right);
    return supernodal.solve(right);
  }
};

HeldSystem::HeldSystem(SparseMatrix matrix, const std::vector<bool>& held,
                       Numbering numbering) {
  std::vector<int> index;  // among the free, or among the held
  for (std::size_t k = 0; k < held.size(); ++k) {
    std::vector<int>& nodes = held[k] ? held_ : free_;
    index.push_back(static_cast<int>(nodes.size()));
    nodes.push_back(static_cast<int>(k));
  }
  if (held_.empty()) {
    inner_ = std::move(matrix);
  } else {
    inner_ =
        rows_of_free(matrix, held, false, index, free_.size(), free_.size());
    between_ =
        rows_of_free(matrix, held, true, index, free_.size(), held_.size());
  }
  if (!free_.empty())
    factor_ = std::make_shared<const Factor>(inner_, numbering);
}

SolveReport HeldSystem::solve(const MatrixXd& right, MatrixXd& solution) const {
  SolveReport report;
  report.unknowns = static_cast<Index>(free_.size());
  if (free_.empty()) return report;
  if (held_.empty()) {
    solution = factor_->solve(right);
    report.relative_residual = residual_of(inner_, solution, right);
    return report;
  }
  MatrixXd b = right(free_, Eigen::all);
  b -= between_ * MatrixXd(solution(held_, Eigen::all));
  const MatrixXd x = factor_->solve(b);
  report.relative_residual = residual_of(inner_, x, b);
  solution(free_, Eigen::all) = x;
  return report;
}

SolveReport solve_with_held(const SparseMatrix& matrix,
                            const std::vector<bool>& held,
                            const MatrixXd& right, MatrixXd& solution) {
  return HeldSystem(matrix, held).solve(right, solution);
}

Eigen::VectorXd solve_definite(const SparseMatrix& matrix,
                               const Eigen::VectorXd& right) {
  const Eigen::CholmodSimplicialLLT<SparseMatrix> factor(matrix);
  if (factor.info() != Eigen::Success)
    throw NoResultError("the mass matrix of an electrode is not definite");
  return factor.solve(right);
}

}  // namespace thinspot::solver
