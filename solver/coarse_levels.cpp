#include "solver/coarse_levels.hpp"

#include <algorithm>
#include <utility>

namespace thinspot::solver {

namespace {

/// Unknowns that are factored instead of grouped further.
constexpr int kFew = 250;
/// Where groups no longer shrink a system it is factored if it is no larger,
/// and left to the smoother if it is.
constexpr int kMostFactored = 2000;
constexpr double kShrinks = 0.7;

std::size_t at(Eigen::Index k) { return static_cast<std::size_t>(k); }

void onto_groups(const FullRows& p, const LaneVector& x, LaneVector& coarse) {
  std::fill(coarse.begin(), coarse.end(), Lanes::Zero());
  for (int i = 0; i < p.rows(); ++i)
    for (FullRows::InnerIterator it(p, i); it; ++it)
      coarse[at(it.col())] += it.value() * x[at(i)];
}

void add_from_groups(const FullRows& p, const LaneVector& coarse,
                     LaneVector& x) {
  for (int i = 0; i < p.rows(); ++i) {
    Lanes sum = x[at(i)];
    for (FullRows::InnerIterator it(p, i); it; ++it)
      sum += it.value() * coarse[at(it.col())];
    x[at(i)] = sum;
  }
}

BorderedRows whole(SymmetricRows rows) {
  return {{}, std::make_shared<const SymmetricRows>(std::move(rows))};
}

}  // namespace

CoarseLevels::CoarseLevels(SymmetricRows finest) {
  levels_.push_back({whole(std::move(finest)), {}});
  FullRows a = both_triangles(levels_.back().a);
  while (a.rows() > kFew) {
    FullRows p = smoothed_groups(a);
    if (p.cols() == 0 || static_cast<double>(p.cols()) >
                             kShrinks * static_cast<double>(p.rows()))
      break;
    FullRows coarse = a * p;
    coarse = FullRows(p.transpose()) * coarse;
    a = std::move(coarse);
    levels_.back().from_coarser = std::move(p);
    levels_.push_back({whole(upper_triangle(a)), {}});
  }
  if (a.rows() > kMostFactored) return;
  last_ = DenseCholesky(Eigen::MatrixXd(a));
  factored_ = last_.is_definite();
}

CoarseLevels::Room CoarseLevels::room() const {
  Room room;
  for (const Level& level : levels_) {
    const std::size_t n = at(level.a.size());
    // The first has the caller's vectors, and is gone through once.
    if (room.levels.empty())
      room.levels.push_back({{}, {}, LaneVector(n), {}});
    else
      room.levels.push_back(
          {LaneVector(n), LaneVector(n), LaneVector(n), LaneVector(n)});
  }
  return room;
}

void CoarseLevels::cycle(const LaneVector& right, LaneVector& x,
                         Room& room) const {
  cycle(0, right, x, room);
}

void CoarseLevels::cycle(std::size_t level, const LaneVector& right,
                         LaneVector& x, Room& room) const {
  const BorderedRows& a = levels_[level].a;
  LaneVector& rest = room.levels[level].rest;
  if (level + 1 == levels_.size()) {
    if (!factored_) {
      sweep_forward(a, right, x, rest);
      sweep_back(a, right, x, rest);
      return;
    }
    Eigen::MatrixXd b(a.size(), kLanes);
    for (int i = 0; i < a.size(); ++i) b.row(i) = right[at(i)];
    b = last_.solve(std::move(b));
    for (int i = 0; i < a.size(); ++i) x[at(i)] = b.row(i).transpose();
    return;
  }
  sweep_forward(a, right, x, rest);
  const FullRows& p = levels_[level].from_coarser;
  Room::OfLevel& below = room.levels[level + 1];
  onto_groups(p, rest, below.right);
  cycle(level + 1, below.right, below.x, room);
  if (level + 2 < levels_.size()) {
    // Once more for what is left, which makes it a W.
    const BorderedRows& coarse = levels_[level + 1].a;
    LaneVector& again = below.again;
    add_from_groups(p, below.x, x);
    multiply(coarse, below.x, again);
    for (std::size_t i = 0; i < again.size(); ++i) below.right[i] -= again[i];
    cycle(level + 1, below.right, again, room);
    add_from_groups(p, again, x);
  } else {
    add_from_groups(p, below.x, x);
  }
  sweep_back(a, right, x, rest);
}

}  // namespace thinspot::solver
