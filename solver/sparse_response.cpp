#include "solver/sparse_response.hpp"

#include "solver/elimination_order.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;

/// Answers that are kept: those of a working point, and of what is asked there.
constexpr std::size_t kMostSolved = 2;

}  // namespace

SparseResponse::SparseResponse(const SparseMatrix& stiffness,
                               const std::vector<int>& order)
    : order_(order.empty() ? elimination_order(stiffness) : order),
      place_(order_.size()),
      stiffness_(in_order(stiffness, order_)) {
  for (std::size_t k = 0; k < order_.size(); ++k)
    place_[static_cast<std::size_t>(order_[k])] = static_cast<int>(k);
}

/// Of each row on electrodes.
std::vector<int> SparseResponse::places(const Electrodes& electrodes) const {
  std::vector<int> places;
  for (int node : electrodes.nodes.mesh_node)
    places.push_back(place_[static_cast<std::size_t>(node)]);
  return places;
}

const SparseResponse::Factored& SparseResponse::factored(
    const Electrodes& electrodes, double conductivity,
    const LocalLaws& laws) const {
  return kept_.get(conductivity, laws, [&] {
    solved_.clear();
    const std::vector<int> place = places(electrodes);
    const auto at = [&](Index row) {
      return place[static_cast<std::size_t>(row)];
    };
    using Entries = std::vector<Eigen::Triplet<double>>;
    Entries entries, picked;
    for_each_law_entry(electrodes, laws, [&](int j, int k, double v) {
      entries.emplace_back(at(j), at(k), v);
    });
    const Index n = stiffness_.rows();
    SparseMatrix on_metal(n, n);
    on_metal.setFromTriplets(entries.begin(), entries.end());
    std::vector<Index> fixed = find_fixed(electrodes, laws).fixed;
    std::vector<bool> held(static_cast<std::size_t>(n), false);
    for (Index row : fixed) {
      held[static_cast<std::size_t>(at(row))] = true;
      picked.emplace_back(static_cast<int>(picked.size()), at(row), 1);
    }
    SparseMatrix pick(static_cast<Index>(fixed.size()), n);
    pick.setFromTriplets(picked.begin(), picked.end());
    return std::make_shared<const Factored>(
        Factored{HeldSystem(conductivity * stiffness_ + on_metal, held,
                            Numbering::of_elimination),
                 std::move(fixed), pick * stiffness_});
  });
}

BoundaryAnswer SparseResponse::solve(const Electrodes& electrodes,
                                     double conductivity, const LocalLaws& laws,
                                     const MatrixXd& loads,
                                     const MatrixXd& held) const {
  const std::vector<int> place = places(electrodes);
  const Factored& f = factored(electrodes, conductivity, laws);
  MatrixXd potential = MatrixXd::Zero(stiffness_.rows(), loads.cols());
  MatrixXd right = potential;
  right(place, Eigen::all) = loads;
  potential(place, Eigen::all) = held;
  const SolveReport report = f.system.solve(right, potential);
  BoundaryAnswer answer{potential(place, Eigen::all),
                        MatrixXd::Zero(loads.rows(), loads.cols()),
                        report.relative_residual};
  if (!f.fixed.empty())
    answer.reaction(f.fixed, Eigen::all) = f.at_fixed * without_mean(potential);
  if (solved_.size() == kMostSolved) solved_.erase(solved_.begin());
  solved_.push_back(
      {answer.potential, std::move(potential), report.relative_residual});
  return answer;
}

std::optional<Inside> SparseResponse::at_hand(const MatrixXd& boundary) const {
  Index first = 0;
  for (const Solved& s : solved_) {
    const Index count = s.boundary.cols();
    if (first + count > boundary.cols() ||
        s.boundary != boundary.middleCols(first, count))
      return std::nullopt;
    first += count;
  }
  if (first != boundary.cols()) return std::nullopt;
  Inside all{MatrixXd(stiffness_.rows(), first), 0};
  first = 0;
  for (const Solved& s : std::exchange(solved_, {})) {
    all.potential.middleCols(first, s.potential.cols()) =
        s.potential(place_, Eigen::all);
    first += s.potential.cols();
    all.relative_residual =
        std::max(all.relative_residual, s.relative_residual);
  }
  return all;
}

Inside SparseResponse::everywhere(const Electrodes& electrodes,
                                  const MatrixXd& boundary) const {
  if (std::optional<Inside> inside = at_hand(boundary))
    return *std::move(inside);
  const Index n = stiffness_.rows(), columns = boundary.cols();
  std::vector<bool> held(static_cast<std::size_t>(n), false);
  MatrixXd potential = MatrixXd::Zero(n, columns);
  const std::vector<int> place = places(electrodes);
  for (int k : place) held[static_cast<std::size_t>(k)] = true;
  potential(place, Eigen::all) = boundary;
  const SolveReport report =
      HeldSystem(stiffness_, held, Numbering::of_elimination)
          .solve(MatrixXd::Zero(n, columns), potential);
  return {potential(place_, Eigen::all), report.relative_residual};
}

}  // namespace thinspot::solver
