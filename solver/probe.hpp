#pragma once

#include "solver/case.hpp"
#include "solver/model.hpp"
#include "solver/profile.hpp"

#include <Eigen/Core>

#include <string>

namespace thinspot::solver {

/// What a probe reads: at the point of the first part's outline nearest to it,
/// averaged as extremes are. Zero, and no window, where that is dry or masked.
struct ProbeOutcome {
  mesh::Point at = mesh::Point::Zero();  ///< [m]
  std::string face;
  Extreme window;  ///< with the current density [A/m2]
};

/// @param window   averaging length [m]
/// @param density  at the nodes of the first part's electrode [A/m2]
ProbeOutcome read_probe(const Model& model, const Probe& probe, double window,
                        const Eigen::VectorXd& density);

}  // namespace thinspot::solver
