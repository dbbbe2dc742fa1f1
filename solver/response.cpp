#include "solver/response.hpp"

#include "mesh/errors.hpp"
#include "solver/condense.hpp"
#include "solver/dense.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/large_response.hpp"
#include "solver/linear_solve.hpp"
#include "solver/sparse_response.hpp"
#include "solver/system_size.hpp"
#include "solver/turning_response.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Rounding of a backward stable Cholesky solve is a few n eps; beyond this
/// the answer is not to be trusted.
constexpr double kMostResidual = 1e-9;
/// Reactions balance by construction of the stiffness; what is left is its
/// rounding times the condition of the electrodes' laws.
constexpr double kMostImbalance = 1e-7;

/// Answers that are kept: inputs that move no current, and steps and looks at
/// the same set-up again, ask for the same ones. And their potentials' bytes.
constexpr double kMostKept = 4, kMostKeptBytes = 4e6;

/// Values of one electrode's rows.
VectorXd at_rows(const Electrode& electrode, const VectorXd& boundary) {
  VectorXd values(static_cast<Index>(electrode.rows.size()));
  for (std::size_t k = 0; k < electrode.rows.size(); ++k)
    values(static_cast<Index>(k)) = boundary(electrode.rows[k]);
  return values;
}

/// Electrode currents: by the law where there is one, which equals the sum of
/// its reactions; by reactions where the potential is held.
MatrixXd electrode_currents(const Electrodes& electrodes,
                            const UnitAnswers& answers, const LocalLaws& laws) {
  const auto m = static_cast<Index>(electrodes.each.size());
  MatrixXd current(m, laws.drives());
  for (Index e = 0; e < m; ++e) {
    const auto n = static_cast<std::size_t>(e);
    if (laws.resistance[n] == 0) {
      current.row(e) = answers.leaving[n].colwise().sum();
      continue;
    }
    const Electrode& electrode = electrodes.each[n];
    if (const Tangent* tangent = laws.tangent(n)) {
      current.row(e) = tangent->weight.transpose() *
                       answers.potential(electrode.rows, Eigen::all);
      current(e, e) -= tangent->weight.sum();
      current(e, m) += tangent->rest.sum();
      continue;
    }
    current.row(e) = electrode.weight.transpose() *
                     answers.potential(electrode.rows, Eigen::all);
    current(e, e) -= electrode.measure;
    current.row(e) /= laws.resistance[n];
  }
  return current;
}

void check(const UnitAnswers& answers) {
  if (!answers.potential.allFinite() || !answers.current.allFinite())
    throw NoResultError("the solution is not finite");
  if (!(answers.relative_residual < kMostResidual))
    throw NoResultError(fmt::format(
        "the linear solve left a relative residual of {:.1e}, more than {:.0e}",
        answers.relative_residual, kMostResidual));
  const double largest = answers.current.cwiseAbs().maxCoeff();
  const double imbalance =
      answers.current.colwise().sum().cwiseAbs().maxCoeff();
  if (!(imbalance <= kMostImbalance * largest))
    throw NoResultError(fmt::format(
        "currents do not balance: {:.1e} of the largest, more than {:.0e}",
        imbalance / largest, kMostImbalance));
}

MatrixXd checked(Inside inside) {
  if (!(inside.relative_residual < kMostResidual))
    throw NoResultError("the potential inside the liquid could not be solved");
  return std::move(inside.potential);
}

}  // namespace

Response::Response(const mesh::Mesh& mesh, const mesh::Section& section,
                   const std::vector<int>& order)
    : electrodes_(find_electrodes(mesh, section)) {
  if (!section.discs.empty())
    throw std::logic_error("a mesh that is parted at discs is no whole");
  const Index nodes = mesh.nodes.cols();
  if (nodes >= kIteratedFrom) {
    check_size(bytes_to_iterate(nodes));
    uncondensed_ = std::make_shared<const LargeResponse>(mesh, electrodes_);
    return;
  }
  SparseMatrix stiffness = assemble_stiffness(mesh);
  const auto rows = static_cast<Index>(electrodes_.nodes.mesh_node.size());
  if (rows > kMostDenseRows) {
    uncondensed_ = std::make_shared<const SparseResponse>(stiffness, order);
    return;
  }
  Condensed condensed = condense(stiffness, electrodes_.nodes.row, order);
  condensed_ = std::move(condensed.on_electrodes);
  interior_ = std::move(condensed.interior);
}

Response Response::moved(const mesh::Mesh& mesh,
                         const mesh::Section& section) const {
  return {mesh, section, uncondensed_ ? uncondensed_->order() : interior_.node};
}

Response::Response(Electrodes electrodes, MatrixXd condensed)
    : electrodes_(std::move(electrodes)), condensed_(std::move(condensed)) {}

Response::Response(std::shared_ptr<const TurningResponse> turning, double angle,
                   int waves)
    : turning_(std::move(turning)), at_{angle, waves} {}

UnitAnswers Response::answer(double conductivity, const LocalLaws& laws) const {
  const double bytes =
      sizeof(double) *
      static_cast<double>(electrodes().nodes.mesh_node.size()) *
      static_cast<double>(laws.drives());
  return kept_.get(
      conductivity, laws,
      [&] {
        return std::make_shared<const UnitAnswers>(
            answer_anew(conductivity, laws));
      },
      static_cast<std::size_t>(
          std::clamp(kMostKeptBytes / bytes, 1.0, kMostKept)));
}

UnitAnswers Response::answer_anew(double conductivity,
                                  const LocalLaws& laws) const {
  const Electrodes& all = electrodes();
  const auto rows = static_cast<Index>(all.nodes.mesh_node.size());
  const MatrixXd loads = unit_loads(all, rows, laws);
  const MatrixXd share = held_shares(all, rows, laws);
  BoundaryAnswer on = solve(conductivity, laws, loads, share);
  UnitAnswers answers;
  answers.potential = std::move(on.potential);
  answers.reaction = std::move(on.reaction);
  answers.relative_residual = on.relative_residual;
  answers.leaving = leaving_through(all, answers.potential, answers.reaction,
                                    conductivity, laws, share);
  answers.current = electrode_currents(all, answers, laws);
  check(answers);
  return answers;
}

BoundaryAnswer Response::solve(double conductivity, const LocalLaws& laws,
                               const MatrixXd& loads,
                               const MatrixXd& held) const {
  if (turning_) return turning_->solve(at_, conductivity, laws, loads, held);
  if (uncondensed_)
    return uncondensed_->solve(electrodes_, conductivity, laws, loads, held);
  return solve_dense(conductivity, laws, loads, held);
}

const Response::Blocks& Response::blocks(const LocalLaws& laws) const {
  FixedRows rows = find_fixed(electrodes_, laws);
  if (blocks_ && blocks_->rows.held == rows.held) return *blocks_;
  auto made = std::make_shared<Blocks>();
  made->among_free = condensed_(rows.free, rows.free);
  made->to_fixed = condensed_(rows.free, rows.fixed);
  made->among_fixed = condensed_(rows.fixed, rows.fixed);
  made->place.assign(rows.held.size(), -1);
  for (std::size_t k = 0; k < rows.free.size(); ++k)
    made->place[static_cast<std::size_t>(rows.free[k])] = static_cast<Index>(k);
  made->rows = std::move(rows);
  blocks_ = std::move(made);
  return *blocks_;
}

BoundaryAnswer Response::solve_dense(double conductivity, const LocalLaws& laws,
                                     const MatrixXd& loads,
                                     const MatrixXd& held) const {
  const Blocks& s = blocks(laws);
  const auto &free = s.rows.free, &fixed = s.rows.fixed;
  BoundaryAnswer answer;
  answer.potential = held;
  answer.reaction = MatrixXd::Zero(held.rows(), held.cols());
  const MatrixXd values = held(fixed, Eigen::all);
  if (!free.empty()) {
    MatrixXd h = conductivity * s.among_free;
    MatrixXd right = loads(free, Eigen::all);
    if (!fixed.empty()) right -= conductivity * product(s.to_fixed, values);
    for_each_law_entry(electrodes_, laws, [&](int j, int k, double v) {
      const Index row = s.place[static_cast<std::size_t>(j)],
                  column = s.place[static_cast<std::size_t>(k)];
      if (row < 0) return;
      if (column >= 0)
        h(row, column) += v;
      else
        right.row(row) -= v * held.row(k);
    });
    const double size = h.norm();
    const DenseCholesky factor(std::move(h));
    if (!factor.is_definite())
      throw NoResultError("the response of the section is not definite");
    const MatrixXd x = factor.solve(right);
    MatrixXd rest = conductivity * product(s.among_free, x) - right;
    for_each_law_entry(electrodes_, laws, [&](int j, int k, double v) {
      const Index row = s.place[static_cast<std::size_t>(j)],
                  column = s.place[static_cast<std::size_t>(k)];
      if (row >= 0 && column >= 0) rest.row(row) += v * x.row(column);
    });
    answer.relative_residual =
        relative_residual(rest.norm(), size * x.norm() + right.norm());
    answer.potential(free, Eigen::all) = x;
  }
  if (fixed.empty()) return answer;
  const MatrixXd rest = without_mean(answer.potential);
  const MatrixXd on_free = rest(free, Eigen::all),
                 on_fixed = rest(fixed, Eigen::all);
  answer.reaction(fixed, Eigen::all) = transposed_product(s.to_fixed, on_free) +
                                       product(s.among_fixed, on_fixed);
  return answer;
}

VectorXd Response::current_density(std::size_t electrode,
                                   const UnitAnswers& answers,
                                   const VectorXd& drive, double resistance,
                                   const Tangent* tangent) const {
  const Electrode& e = electrodes().each[electrode];
  if (tangent || resistance > 0) {
    const VectorXd potential = answers.potential * drive;
    if (tangent)
      return tangent->node_slope.array() *
                 (at_rows(e, potential).array() -
                  drive(static_cast<Index>(electrode))) +
             tangent->node_rest.array();
    return (at_rows(e, potential).array() -
            drive(static_cast<Index>(electrode))) /
           resistance;
  }
  const VectorXd leaving = answers.leaving[electrode] * drive;
  // Tested and expressed with the edges' hats: with all P2 functions the flux
  // swings between ends and middles of edges (measured on concentric
  // cylinders: 2e-3 of it, with hats below 1e-3).
  const SparseMatrix mass = e.hats.transpose() * e.mass * e.hats;
  return e.hats * solve_definite(mass, e.hats.transpose() * leaving);
}

std::vector<std::array<std::size_t, 2>> Response::touching(
    const LocalLaws& laws) const {
  std::vector<std::size_t> holder(electrodes().nodes.mesh_node.size(), count());
  std::vector<std::array<std::size_t, 2>> pairs;
  for (std::size_t e = 0; e < count(); ++e) {
    if (laws.resistance[e] != 0) continue;
    for (int row : electrodes().each[e].rows) {
      const std::size_t other =
          std::exchange(holder[static_cast<std::size_t>(row)], e);
      if (other < count()) pairs.push_back({other, e});
    }
  }
  return pairs;
}

MatrixXd Response::flux_through_discs(const MatrixXd& boundary) const {
  return turning_ ? turning_->flux(at_, boundary)
                  : MatrixXd(0, boundary.cols());
}

MatrixXd Response::everywhere(const MatrixXd& boundary) const {
  if (turning_) return turning_->everywhere(at_, boundary);
  if (uncondensed_)
    return checked(uncondensed_->everywhere(electrodes_, boundary));
  return interior_.extend(boundary);
}

}  // namespace thinspot::solver
