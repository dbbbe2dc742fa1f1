#include "solver/mesh_system.hpp"

#include "mesh/errors.hpp"
#include "solver/electrode_laws.hpp"
#include "solver/system_size.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

/// Each takes vectors of its own, and two fetch what memory gives.
constexpr unsigned kMostThreads = 2;

std::size_t at(Index k) { return static_cast<std::size_t>(k); }

/// What the stiffness makes of a field in those of its first rows that are
/// held, beside a constant, which makes nothing.
template <class Value>
VectorXd reactions(const SymmetricRows& stiffness,
                   const std::vector<bool>& held, double constant,
                   Value value) {
  const auto first = static_cast<int>(held.size());
  VectorXd sum = VectorXd::Zero(first);
  for (int i = 0; i < first; ++i) {
    const double own = value(at(i)) - constant;
    sum(i) += stiffness.diagonal(i) * own;
    stiffness.right_of_diagonal(i, [&](int j, double v) {
      sum(i) += v * (value(at(j)) - constant);
      if (j < first) sum(j) += v * own;
    });
  }
  for (int i = 0; i < first; ++i)
    if (!held[at(i)]) sum(i) = 0;
  return sum;
}

/// Two columns of a matrix of the first nodes; where there is no second one,
/// nothing.
LaneVector two_of(const MatrixXd& columns, Index from) {
  LaneVector lanes(at(columns.rows()), Lanes::Zero());
  for (Index c = 0; c < std::min<Index>(kLanes, columns.cols() - from); ++c)
    for (Index k = 0; k < columns.rows(); ++k)
      lanes[at(k)](c) = columns(k, from + c);
  return lanes;
}

/// What a pair of fields leaves.
struct Evidence {
  double rest_square = 0, x_square = 0;
  int cycles = 0;
};

}  // namespace

MeshSystem::MeshSystem(std::shared_ptr<const MeshRows> rows,
                       const Entries& laws, std::vector<bool> held)
    : rows_(std::move(rows)) {
  BorderedRows a{rows_->stiffness->first(static_cast<int>(held.size())),
                 rows_->stiffness};
  std::vector<double> on_ones(held.size(), 0.0);
  for (const auto& law : laws) {
    // Of each pair one entry is both.
    if (law.row() <= law.col()) a.border.add(law.row(), law.col(), law.value());
    on_ones[at(law.row())] += law.value();
  }
  system_ = std::make_shared<const LaneSystem>(
      std::move(a), rows_->corners, std::move(held), std::move(on_ones));
  norm_ = frobenius_norm(system_->closed);
}

MeshSystem::Answer MeshSystem::solve(const MatrixXd& loads,
                                     const MatrixXd& values,
                                     bool everywhere) const {
  const LaneSystem& s = *system_;
  Answer answer;
  answer.first.resize(loads.rows(), loads.cols());
  answer.reaction = MatrixXd::Zero(loads.rows(), loads.cols());
  if (everywhere) answer.everywhere.resize(s.open.size(), loads.cols());
  const Index pairs = (loads.cols() + kLanes - 1) / kLanes;
  const auto workers = static_cast<unsigned>(std::min<Index>(
      pairs,
      std::clamp(std::thread::hardware_concurrency(), 1u, kMostThreads)));
  std::vector<LaneWork> rooms;
  for (unsigned k = 0; k < workers; ++k) rooms.emplace_back(s);
  std::vector<Evidence> evidence(at(pairs));
  std::atomic<Index> next = 0;
  std::atomic<bool> settled = true;
  std::mutex one;
  std::exception_ptr failed;
  const auto work = [&](LaneWork& room) {
    try {
      for (Index pair = next++; pair < pairs && settled; pair = next++) {
        const Index from = kLanes * pair;
        if (!solve_lanes(s, two_of(loads, from), two_of(values, from), room))
          settled = false;
        tell(room, from, answer);
        evidence[at(pair)] = {room.rest_square.sum(), room.x_square.sum(),
                              room.cycles};
      }
    } catch (...) {
      const std::lock_guard lock(one);
      failed = std::current_exception();
      settled = false;
    }
  };
  std::vector<std::thread> threads;
  for (unsigned k = 1; k < workers; ++k) try {
      threads.emplace_back([&work, &room = rooms[k]] { work(room); });
    } catch (const std::system_error&) {
      break;  // no more threads to be had: those that are there do it
    }
  if (!rooms.empty()) work(rooms.front());
  for (std::thread& t : threads) t.join();
  if (failed) std::rethrow_exception(failed);
  if (!settled) {
    rooms.clear();  // the factor needs what they take
    return factored(loads, values, everywhere);
  }
  // In the order of the fields, whoever was first.
  double rest = 0, x = 0;
  for (const Evidence& of : evidence) {
    rest += of.rest_square;
    x += of.x_square;
    answer.cycles = std::max(answer.cycles, of.cycles);
  }
  answer.relative_residual =
      relative_residual(std::sqrt(rest), norm_ * std::sqrt(x) + loads.norm());
  return answer;
}

void MeshSystem::tell(const LaneWork& work, Index from, Answer& answer) const {
  const LaneSystem& s = *system_;
  for (Index c = from; c < std::min(from + kLanes, answer.first.cols()); ++c) {
    const Index lane = c - from;
    const double constant = work.constant(lane);
    for (Index k = 0; k < answer.first.rows(); ++k)
      answer.first(k, c) = work.x[at(k)](lane) + constant;
    if (s.any_held)
      answer.reaction.col(c) =
          reactions(*rows_->stiffness, s.held, answer.first.col(c).mean(),
                    [&](std::size_t k) { return work.x[k](lane); });
    if (answer.everywhere.size() == 0) continue;
    for (std::size_t k = 0; k < work.x.size(); ++k)
      answer.everywhere(rows_->node[k], c) = work.x[k](lane) + constant;
  }
}

MeshSystem::Answer MeshSystem::factored(const MatrixXd& loads,
                                        const MatrixXd& values,
                                        bool everywhere) const {
  const LaneSystem& s = *system_;
  const Index n = s.open.size(), first = loads.rows();
  if (is_too_large(bytes_to_factor(n)))
    throw NoResultError(
        "the linear system does not settle, and is too large to be factored: "
        "ask for less accuracy ([accuracy] tolerance), or draw fewer copies");
  std::vector<bool> held = s.held;
  held.resize(at(n), false);
  MatrixXd right = MatrixXd::Zero(n, loads.cols()), solution = right;
  right.topRows(first) = loads;
  solution.topRows(first) = values;
  Answer answer;
  answer.iterated = false;
  answer.relative_residual =
      solve_with_held(SparseMatrix(both_triangles(s.open)), held, right,
                      solution)
          .relative_residual;
  answer.first = solution.topRows(first);
  answer.reaction = MatrixXd::Zero(first, loads.cols());
  if (s.any_held)
    for (Index c = 0; c < loads.cols(); ++c)
      answer.reaction.col(c) = reactions(
          *rows_->stiffness, s.held, answer.first.col(c).mean(),
          [&](std::size_t k) { return solution(static_cast<Index>(k), c); });
  if (!everywhere) return answer;
  answer.everywhere.resize(n, loads.cols());
  for (std::size_t k = 0; k < at(n); ++k)
    answer.everywhere.row(rows_->node[k]) = solution.row(static_cast<Index>(k));
  return answer;
}

}  // namespace thinspot::solver
