#pragma once

#include "solver/local_errors.hpp"
#include "solver/model.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// Adds what flows through the circles of turning discs as loads on the edges
/// of both sides: to the local problems these are bounds with a known flux, the
/// sum of a few waves. Nothing where the model has no discs.
/// @param boundary  values of each field at the electrodes
void add_disc_loads(const Model& model, const Eigen::MatrixXd& boundary,
                    Fields& fields);

}  // namespace thinspot::solver
