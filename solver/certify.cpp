#include "solver/certify.hpp"

#include "mesh/refine.hpp"

#include <algorithm>
#include <numeric>

namespace thinspot::solver {

namespace {

using Eigen::Index;

constexpr int kMostRounds = 14;
/// Nodes beyond which refining ends: some seconds of work.
constexpr Index kMostNodes = 150'000;

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

/// Triangles that bring each goal that is beyond its allowance back to it.
std::vector<int> triangles_to_refine(const Model& model, const Estimate& e,
                                     const Eigen::VectorXd& last_bar) {
  std::vector<bool> marked(static_cast<std::size_t>(e.share.rows()), false);
  std::vector<int> order(static_cast<std::size_t>(e.share.rows()));
  for (Index goal = 0; goal < e.bar.size(); ++goal) {
    if (e.bar(goal) <= e.allowed(goal)) continue;
    const auto share = e.share.col(goal);
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
  return triangles;
}

}  // namespace

Certified certify(Model model, const Case& c,
                  const std::vector<Watched>& watched) {
  Certified result{std::move(model), {}, {}, false, 0};
  Eigen::VectorXd last_bar;
  for (;;) {
    result.outcome = evaluate(result.model, c);
    result.outcome.watched = watched;
    const Estimate estimate = estimate_errors(result.model, c, result.outcome);
    result.errors = estimate.errors;
    result.within = (estimate.bar.array() <= estimate.allowed.array()).all();
    if (result.within || result.rounds == kMostRounds ||
        result.model.mesh.nodes.cols() > kMostNodes)
      return result;
    const std::vector<int> marked =
        triangles_to_refine(result.model, estimate, last_bar);
    last_bar = estimate.bar;
    if (marked.empty()) return result;
    const double mesh_seconds = result.model.mesh_seconds;
    const double response_seconds = result.model.response_seconds;
    mesh::Mesh finer =
        mesh::refined(result.model.mesh, result.model.section, marked);
    result.model =
        build_model(c, std::move(result.model.section), std::move(finer));
    result.model.mesh_seconds += mesh_seconds;
    result.model.response_seconds += response_seconds;
    ++result.rounds;
  }
}

}  // namespace thinspot::solver
