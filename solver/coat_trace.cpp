#include "solver/coat_trace.hpp"

#include "solver/element.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::VectorXd;

/// A step's edge that covers a stretch of arc, and how far that is shifted
/// where it lies beyond the loop's end.
struct Cover {
  const SurfaceEdge* edge = nullptr;
  double turn = 0;
};

Cover covering(const SurfaceLoop& loop, double arc) {
  for (const SurfaceEdge& e : loop.edges)
    for (const double turn : {0.0, -loop.length, loop.length})
      if (arc + turn > e.from && arc + turn < e.to) return {&e, turn};
  return {};
}

}  // namespace

VectorXd on_nodes_of_step(const Coat& coat, const mesh::Outline& drawn,
                          const StepOnPart& step, const VectorXd& weights,
                          Index nodes) {
  VectorXd found = VectorXd::Zero(nodes);
  std::vector<bool> done(static_cast<std::size_t>(weights.size()), false);
  for (std::size_t l = 0; l < coat.surface.loops.size(); ++l)
    for (const SurfaceEdge& e : coat.surface.loops[l].edges) {
      if (std::all_of(e.node.begin(), e.node.end(), [&](int node) {
            return weights(node) == 0 || done[static_cast<std::size_t>(node)];
          }))
        continue;
      const Extreme there =
          window_in_step({e.from, 0, e.from, e.to, l}, coat, drawn, step);
      if (!(there.to > there.from)) continue;
      const SurfaceLoop& loop = step.surface->loops[there.of_loop];
      const auto [edge, turn] = covering(loop, 0.5 * (there.from + there.to));
      if (!edge) continue;  // dry in this step
      std::array<double, 3> arcs{there.from, there.to,
                                 0.5 * (there.from + there.to)};
      if (step.solid->flipped) std::swap(arcs[0], arcs[1]);
      for (std::size_t k = 0; k < 3; ++k) {
        const auto node = static_cast<std::size_t>(e.node[k]);
        if (done[node]) continue;
        done[node] = true;
        const double t =
            (arcs[k] + turn - edge->from) / (edge->to - edge->from);
        const Eigen::Vector3d share = edge_functions(std::clamp(t, 0.0, 1.0));
        for (std::size_t j = 0; j < 3; ++j)
          found(edge->node[j]) +=
              weights(e.node[k]) * share(static_cast<Index>(j));
      }
    }
  return found;
}

}  // namespace thinspot::solver
