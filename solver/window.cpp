#include "solver/window.hpp"

#include "solver/element.hpp"
#include "solver/linear_solve.hpp"

#include <algorithm>

namespace thinspot::solver {

WindowAverage window_average(const Surface& surface, const Extreme& window,
                             Eigen::Index nodes) {
  WindowAverage result;
  result.weights = Eigen::VectorXd::Zero(nodes);
  const SurfaceLoop& loop = surface.loops[window.of_loop];
  for (const SurfaceEdge& e : loop.edges)
    for (double turn : {-loop.length, 0.0, loop.length}) {
      const double from = std::max(window.from + turn, e.from);
      const double to = std::min(window.to + turn, e.to);
      if (to <= from) continue;
      const double size = e.to - e.from;
      // The boundary's edge runs the other way.
      const EdgeStretch s{e.boundary,
                          {e.node[1], e.node[0], e.node[2]},
                          (e.to - to) / size,
                          (e.to - from) / size,
                          size / (window.to - window.from)};
      for (const EdgePoint& q : gauss_rule()) {
        const double t = s.from + q.t * (s.to - s.from);
        const Eigen::Vector3d n = edge_functions(t);
        for (std::size_t k = 0; k < 3; ++k)
          result.weights(s.node[k]) += s.share * (s.to - s.from) * q.weight *
                                       n(static_cast<Eigen::Index>(k));
      }
      result.edges.push_back(s);
    }
  return result;
}

Eigen::VectorXd flux_trace(const Electrode& e, const Eigen::VectorXd& weights) {
  const SparseMatrix mass = e.hats.transpose() * e.mass * e.hats;
  return e.hats * solve_definite(mass, e.hats.transpose() * weights);
}

}  // namespace thinspot::solver
