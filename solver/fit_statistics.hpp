#pragma once

#include "solver/fit_search.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A direction in which the readings say little: parameters that may change
/// together and leave the readings as they are.
struct Untold {
  /// Those that take part, most first, and how much of each, in its own unit;
  /// of one sign: the readings bear more of one with less of the other where
  /// the signs differ.
  std::vector<std::string> keys;
  std::vector<double> parts;
  /// What the readings leave open along it, in units of the parameters.
  double spread = 0;
};

/// Which directions the readings, without what the case states, leave open by
/// more than the parameters' own unit. Of those alone that a wanted parameter
/// takes part in. Singular values of the slopes.
/// @param slopes  of the readings' residuals
std::vector<Untold> untold(const std::vector<FitParameter>& parameters,
                           const Eigen::MatrixXd& slopes);

/// Which parameters a fit can find: those in no direction that neither the
/// readings nor what is stated hold. Of such a direction the one is given up
/// that is guessed best: an offset before a slope, a slope before the
/// conductivity.
/// @param slopes  of all residuals
std::vector<bool> findable(const std::vector<FitParameter>& parameters,
                           Eigen::MatrixXd slopes);

/// Of how much the readings are off.
struct FitStatistics {
  Eigen::MatrixXd covariance;  ///< of x
  int freedom = 0;             ///< residuals less parameters
  double chance = 1;  ///< that readings as sure as stated scatter so much
  /// By which the readings' standard deviations were multiplied for the
  /// covariance, as they scatter more than stated (chance below 1 %); 1: they
  /// do not.
  double widened = 1;
  /// Readings that are out of line: farther off what the others tell than one
  /// sound reading in one of twenty such tables is.
  std::vector<bool> outlying;
  /// What all others that are in line tell of each reading, less what was read:
  /// in standard deviations of the reading, and of the difference; 0 where no
  /// other tells it. Readings' signs as in FitPoint.
  std::vector<double> off_others, against_others;
  /// What each parameter's x would change by without the reading, a column a
  /// reading.
  Eigen::MatrixXd without;
};
FitStatistics fit_statistics(const FitPoint& point, std::size_t readings);

}  // namespace thinspot::solver
