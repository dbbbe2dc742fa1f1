#pragma once

#include "solver/fit_model.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// Parameters for which the sum of squares is least, and what is needed to
/// judge them.
struct FitPoint {
  Eigen::VectorXd x;
  Eigen::VectorXd values;     ///< of the readings there
  Eigen::VectorXd residuals;  ///< readings: (value - read) over its standard
                              ///< deviation; then what the case states
  Eigen::MatrixXd slopes;     ///< of the residuals by x
  double squares = 0;         ///< their sum
  int evaluations = 0;
};

/// What was read, and its standard deviations.
struct ReadValues {
  Eigen::VectorXd value, spread;
};
ReadValues read_values(const std::vector<Reading>& readings);

/// Residuals and slopes at a point, as in FitPoint.
FitPoint fit_point(const FitModel& model, const ReadValues& read,
                   const Eigen::VectorXd& x);

/// Weighted least squares by Levenberg's and Marquardt's method (MINPACK's, as
/// Eigen has it).
/// @throws NoResultError where it does not settle.
FitPoint least_squares(const FitModel& model, const ReadValues& read,
                       const Eigen::VectorXd& start);

}  // namespace thinspot::solver
