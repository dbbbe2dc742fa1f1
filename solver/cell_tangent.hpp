#pragma once

#include "solver/model.hpp"
#include "solver/step_inputs.hpp"
#include "solver/supply.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::solver {

/// The small equations of a cell at work, linearized where it works. Unknowns:
/// the drive of each electrode, the voltage of each rail, how much more than
/// the section the rectifiers feed (wires), and the logarithm of each
/// resistance that follows its electrode's current. The equations are of the
/// unknowns, of the electrodes' currents, and of the step's numbers.
struct CellTangent {
  Eigen::MatrixXd by_unknowns;         ///< equations x unknowns, currents held
  Eigen::MatrixXd by_currents;         ///< equations x electrodes
  Eigen::MatrixXd by_inputs;           ///< equations x numbers
  std::vector<std::size_t> following;  ///< electrodes whose resistance does
  /// Voltage at the terminals, by unknowns, currents and numbers.
  Eigen::VectorXd voltage_by_unknowns, voltage_by_currents, voltage_by_inputs;
  /// Of the logarithm of the k-th resistance among the unknowns.
  Eigen::Index place_of(std::size_t k) const {
    return by_unknowns.cols() - static_cast<Eigen::Index>(following.size()) +
           static_cast<Eigen::Index>(k);
  }
  std::string bend;  ///< as of StepDual
};

/// @param w  as operate() leaves it
CellTangent cell_tangent(const Model& model, const Case& alone,
                         const WorkingPoint& w);

}  // namespace thinspot::solver
