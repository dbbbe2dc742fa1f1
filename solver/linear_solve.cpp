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

}  // namespace

/// One of the two.
struct HeldSystem::Factor {
  Eigen::CholmodSimplicialLLT<SparseMatrix> simplicial;
  Eigen::CholmodSupernodalLLT<SparseMatrix> supernodal;
  bool is_small = true;

  explicit Factor(const SparseMatrix& matrix)
      : is_small(matrix.rows() < kSupernodalFrom) {
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
                       const std::vector<bool>& held) {
  std::vector<int> index(held.size());  // among the free, or among the held
  for (std::size_t k = 0; k < held.size(); ++k) {
    std::vector<int>& nodes = held[k] ? held_ : free_;
    index[k] = static_cast<int>(nodes.size());
    nodes.push_back(static_cast<int>(k));
  }
  std::vector<Eigen::Triplet<double>> inner, between;
  for (Index column = 0; column < matrix.outerSize(); ++column)
    for (SparseMatrix::InnerIterator it(matrix, column); it; ++it) {
      const auto r = static_cast<std::size_t>(it.row()),
                 c = static_cast<std::size_t>(it.col());
      if (!held[r])
        (held[c] ? between : inner)
            .emplace_back(index[r], index[c], it.value());
    }
  const auto n = static_cast<Index>(free_.size());
  inner_.resize(n, n);
  inner_.setFromTriplets(inner.begin(), inner.end());
  between_.resize(n, static_cast<Index>(held_.size()));
  between_.setFromTriplets(between.begin(), between.end());
  if (n > 0) factor_ = std::make_shared<const Factor>(inner_);
}

SolveReport HeldSystem::solve(const MatrixXd& right, MatrixXd& solution) const {
  SolveReport report;
  report.unknowns = static_cast<Index>(free_.size());
  if (free_.empty()) return report;
  MatrixXd b = right(free_, Eigen::all);
  if (!held_.empty()) b -= between_ * MatrixXd(solution(held_, Eigen::all));
  const MatrixXd x = factor_->solve(b);
  const double scale = inner_.norm() * x.norm() + b.norm();
  report.relative_residual = scale > 0 ? (inner_ * x - b).norm() / scale : 0;
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
