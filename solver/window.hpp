#pragma once

#include "solver/profile.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// What a window of arc covers of one boundary edge, in the fractions of its
/// length from its first node.
struct EdgeStretch {
  std::size_t boundary = 0;   ///< index into Mesh::boundary
  std::array<int, 3> node{};  ///< of the electrode: from, to, middle
  double from = 0, to = 0;
  double share = 0;  ///< length of the edge over that of the window
};

/// The average over a window as a functional.
struct WindowAverage {
  std::vector<EdgeStretch> edges;
  Eigen::VectorXd weights;  ///< on the electrode's nodes; sum 1 where all of
                            ///< the window is wetted
};

/// @param nodes  of the electrode
WindowAverage window_average(const Surface& surface, const Extreme& window,
                             Eigen::Index nodes);

/// Of an electrode that holds its potential, how a weighted sum of the current
/// densities at its nodes goes by what leaves through each: a trace with which
/// that is tested, made of the edges' hats as Response::current_density is.
Eigen::VectorXd flux_trace(const Electrode& electrode,
                           const Eigen::VectorXd& weights);

}  // namespace thinspot::solver
