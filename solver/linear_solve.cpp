#include "solver/linear_solve.hpp"

#include "mesh/errors.hpp"

#include <Eigen/CholmodSupport>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Simplicial below this size, supernodal above (measured: with the reference
/// BLAS supernodal pays from about 60,000 unknowns).
constexpr Index kSupernodalFrom = 60'000;

template <class Matrix>
Matrix factor_and_solve(const SparseMatrix& matrix, const Matrix& right) {
  const auto solve_by = [&](auto&& factor) -> Matrix {
    factor.compute(matrix);
    if (factor.info() != Eigen::Success)
      throw NoResultError(
          "the linear system is not definite: the mesh or the "
          "section is unsound");
    return factor.solve(right);
  };
  if (matrix.rows() < kSupernodalFrom)
    return solve_by(Eigen::CholmodSimplicialLLT<SparseMatrix>());
  return solve_by(Eigen::CholmodSupernodalLLT<SparseMatrix>());
}

}  // namespace

SolveReport solve_with_held(const SparseMatrix& matrix,
                            const std::vector<bool>& held,
                            const MatrixXd& right, MatrixXd& solution) {
  std::vector<int> index(held.size(), -1);
  std::vector<int> free;
  for (std::size_t k = 0; k < held.size(); ++k)
    if (!held[k]) {
      index[k] = static_cast<int>(free.size());
      free.push_back(static_cast<int>(k));
    }
  SolveReport report;
  report.unknowns = static_cast<Index>(free.size());
  if (free.empty()) return report;
  std::vector<Eigen::Triplet<double>> entries;
  MatrixXd b = right(free, Eigen::all);
  for (Index column = 0; column < matrix.outerSize(); ++column)
    for (SparseMatrix::InnerIterator it(matrix, column); it; ++it) {
      const int r = index[static_cast<std::size_t>(it.row())];
      const int c = index[static_cast<std::size_t>(it.col())];
      if (r < 0) continue;
      if (c >= 0)
        entries.emplace_back(r, c, it.value());
      else
        b.row(r) -= it.value() * solution.row(it.col());
    }
  SparseMatrix inner(report.unknowns, report.unknowns);
  inner.setFromTriplets(entries.begin(), entries.end());
  const MatrixXd x = factor_and_solve(inner, b);
  const double scale = inner.norm() * x.norm() + b.norm();
  report.relative_residual = scale > 0 ? (inner * x - b).norm() / scale : 0;
  for (std::size_t k = 0; k < free.size(); ++k)
    solution.row(free[k]) = x.row(static_cast<Index>(k));
  return report;
}

Eigen::VectorXd solve_definite(const SparseMatrix& matrix,
                               const Eigen::VectorXd& right) {
  return factor_and_solve(matrix, right);
}

}  // namespace thinspot::solver
