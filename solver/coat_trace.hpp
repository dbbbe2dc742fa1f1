#pragma once

#include "solver/coat.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// A weighted sum over a coat's nodes of what one step does there, as one over
/// the nodes of the step's own electrode: the transpose of how lay_down reads a
/// step's current density off at the coat's nodes.
/// @param drawn    the part where it is drawn
/// @param step     of it, solid and surface are read
/// @param weights  at the coat's nodes
/// @param nodes    of the step's electrode
Eigen::VectorXd on_nodes_of_step(const Coat& coat, const mesh::Outline& drawn,
                                 const StepOnPart& step,
                                 const Eigen::VectorXd& weights,
                                 Eigen::Index nodes);

}  // namespace thinspot::solver
