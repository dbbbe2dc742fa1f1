#include "solver/linear_solve.hpp"

#include "mesh/errors.hpp"

#include <Eigen/CholmodSupport>

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Simplicial below this size, supernodal above (measured: with the reference
/// BLAS supernodal pays from about 60,000 unknowns).
constexpr Index kSupernodalFrom = 60'000;

/// The rows of some nodes of a symmetric matrix, and of them the columns of
/// those nodes that are held, or of those that are not.
/// @param index  of each node, its column
SparseMatrix rows_of(const SparseMatrix& matrix, const std::vector<int>& nodes,
                     const std::vector<bool>& held, bool of_held,
                     const std::vector<int>& index, std::size_t columns) {
  // Column by column of the transposed, in any order, which transposing sorts.
  Eigen::SparseMatrix<double> turned(static_cast<Index>(columns),
                                     static_cast<Index>(nodes.size()));
  const auto is_wanted = [&](Index row) {
    return held[static_cast<std::size_t>(row)] == of_held;
  };
  Index count = 0;
  for (int node : nodes)
    for (SparseMatrix::InnerIterator it(matrix, node); it; ++it)
      count += is_wanted(it.row()) ? 1 : 0;
  turned.resizeNonZeros(count);
  int next = 0;
  for (std::size_t k = 0; k < nodes.size(); ++k) {
    turned.outerIndexPtr()[k] = next;
    for (SparseMatrix::InnerIterator it(matrix, nodes[k]); it; ++it) {
      if (!is_wanted(it.row())) continue;
      turned.innerIndexPtr()[next] = index[static_cast<std::size_t>(it.row())];
      turned.valuePtr()[next++] = it.value();
    }
  }
  turned.outerIndexPtr()[nodes.size()] = next;
  return turned.transpose();
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

}  // namespace

/// One of the two.
struct HeldSystem::Factor {
  Eigen::CholmodSimplicialLLT<SparseMatrix> simplicial;
  Eigen::CholmodSupernodalLLT<SparseMatrix> supernodal;
  bool is_small = true;

  Factor(const SparseMatrix& matrix, bool is_ordered)
      : is_small(matrix.rows() < kSupernodalFrom) {
    if (is_ordered)
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

HeldSystem::HeldSystem(const SparseMatrix& matrix,
                       const std::vector<bool>& held,
                       std::span<const int> order) {
  std::vector<int> index(held.size());  // among the free, or among the held
  for (std::size_t k = 0; k < held.size(); ++k) {
    const int node = order.empty() ? static_cast<int>(k) : order[k];
    const auto n = static_cast<std::size_t>(node);
    std::vector<int>& nodes = held[n] ? held_ : free_;
    index[n] = static_cast<int>(nodes.size());
    nodes.push_back(node);
  }
  inner_ = rows_of(matrix, free_, held, false, index, free_.size());
  between_ = rows_of(matrix, free_, held, true, index, held_.size());
  if (!free_.empty())
    factor_ = std::make_shared<const Factor>(inner_, !order.empty());
}

SolveReport HeldSystem::solve(const MatrixXd& right, MatrixXd& solution) const {
  SolveReport report;
  report.unknowns = static_cast<Index>(free_.size());
  if (free_.empty()) return report;
  MatrixXd b = right(free_, Eigen::all);
  if (!held_.empty()) b -= between_ * MatrixXd(solution(held_, Eigen::all));
  const MatrixXd x = factor_->solve(b);
  const double scale = inner_.norm() * x.norm() + b.norm();
  report.relative_residual =
      scale > 0 ? residual_norm(inner_, x, b) / scale : 0;
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
