#include "solver/refinement.hpp"

#include "mesh/refine.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// Share of the allowed error that unmarked triangles may leave: theirs goes
/// on in the next round as it is.
constexpr double kLeft = 0.6;
/// No more of a goal's error is marked in one round: what causes it may lie in
/// few triangles, and the rest shrinks with them.
constexpr double kMostMarked = 0.9;

/// A goal that has not come down by this factor in a round follows an extreme
/// that wanders: over a surface that is plated nearly evenly, what is least
/// here is next least elsewhere, and all of the surface is refined.
constexpr double kSlow = 0.7;

/// By how many times a round brings the worst bar down, as a rule.
constexpr double kUsual = 2;

/// Of what a mesh may still grow, what a last round aims at: halving those that
/// are marked halves some beside them too.
constexpr double kMargin = 0.9;
constexpr int kMostTries = 3;
/// Room for less than this share of all nodes is not worth another round.
constexpr double kWorthWhile = 0.1;

}  // namespace

bool within(const Estimate& e) {
  return (e.bar.array() <= e.allowed.array()).all();
}

double rounds_to_come(const Estimate& e) {
  double worst = 1;
  for (Index goal = 0; goal < e.bar.size(); ++goal)
    if (e.bar(goal) > e.allowed(goal))
      worst = std::max(worst, e.bar(goal) / e.allowed(goal));
  // Finite where nothing is allowed.
  return std::min(std::ceil(std::log(worst) / std::log(kUsual)),
                  static_cast<double>(kMostRounds));
}

std::vector<int> triangles_to_refine(const Model& model, const Estimate& e,
                                     const Eigen::VectorXd& last_bar) {
  std::vector<bool> marked(static_cast<std::size_t>(e.share.rows()), false);
  VectorXd worth = VectorXd::Zero(e.share.rows());
  std::vector<int> order(static_cast<std::size_t>(e.share.rows()));
  for (Index goal = 0; goal < e.bar.size(); ++goal) {
    if (e.bar(goal) <= e.allowed(goal)) continue;
    const auto share = e.share.col(goal);
    // Where nothing is allowed, without end.
    worth = worth.cwiseMax(
        share / std::max(e.allowed(goal), std::numeric_limits<double>::min()));
    std::iota(order.begin(), order.end(), 0);
    std::sort(order.begin(), order.end(),
              [&](int a, int b) { return share(a) > share(b); });
    const double all = share.sum();
    const double leave =
        std::max(kLeft * e.allowed(goal) / e.bar(goal), 1 - kMostMarked) * all;
    double left = all;
    for (int t : order) {
      if (left <= leave) break;
      marked[static_cast<std::size_t>(t)] = true;
      left -= share(t);
    }
  }
  for (Index goal = 0; goal < last_bar.size(); ++goal) {
    if (e.bar(goal) <= e.allowed(goal) || e.bar(goal) < kSlow * last_bar(goal))
      continue;
    for (const Surface& surface : model.surfaces)
      for (const SurfaceLoop& loop : surface.loops)
        for (const SurfaceEdge& edge : loop.edges)
          marked[static_cast<std::size_t>(
              model.mesh.boundary[edge.boundary].triangle)] = true;
  }
  std::vector<int> triangles;
  for (std::size_t t = 0; t < marked.size(); ++t)
    if (marked[t]) triangles.push_back(static_cast<int>(t));
  std::stable_sort(triangles.begin(), triangles.end(),
                   [&](int a, int b) { return worth(a) > worth(b); });
  return triangles;
}

std::optional<Refined> refined_as_far(const Model& model,
                                      const Estimate& estimate,
                                      std::vector<int> marked) {
  const auto refined = [&] {
    return mesh::refined(model.mesh, model.section, marked);
  };
  if (marked.empty()) return std::nullopt;
  Refined finer{refined(), false};
  if (rounds_to_come(estimate) <= 1) return finer;
  const Index now = model.mesh.nodes.cols();
  const auto room = static_cast<double>(kMostNodes - now);
  for (int tries = 0; finer.mesh.nodes.cols() > kMostNodes; ++tries) {
    if (tries == kMostTries ||
        room < kWorthWhile * static_cast<double>(kMostNodes))
      return std::nullopt;
    const auto grown = static_cast<double>(finer.mesh.nodes.cols() - now);
    finer.last = true;
    marked.resize(static_cast<std::size_t>(kMargin * room / grown *
                                           static_cast<double>(marked.size())));
    finer.mesh = refined();
  }
  return finer;
}

}  // namespace thinspot::solver
