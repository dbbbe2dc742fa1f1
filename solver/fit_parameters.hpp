#pragma once

#include "solver/case.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::solver {

/// What the readings may change.
struct FitOptions {
  /// Quantities to fit besides those that every fit looks for.
  std::vector<std::string> keys = {};
  /// The readings alone speak: what the case says of how sure its quantities
  /// are does not hold them back, and what is none of the fit's own stays.
  bool readings_alone = false;
};

/// A quantity that the fit moves, as a number x: the logarithm of what is
/// positive, else the value itself.
struct FitParameter {
  std::string key;        ///< as for_each_quantity has it
  Quantity stated;        ///< in the case
  double start = 0;       ///< value that the search begins at
  bool wanted = false;    ///< one that the fit is for
  bool logarithm = true;  ///< of which x is
  /// One standard deviation of x by what the case says; 0: nothing holds it.
  double spread = 0;

  double x_of(double value) const;
  double value_of(double x) const;
  double value_slope(double x) const;  ///< d value / d x
  /// A change of x that is much: what the case leaves open, else a factor of e
  /// or 0.1 V.
  double unit() const;
};

/// Conductivity, the numbers of the cathode's law, what was asked for, and
/// whatever the case has an uncertainty of.
/// @throws InputError where a key asked for is none of the case.
std::vector<FitParameter> fit_parameters(const Case& c,
                                         const FitOptions& options);

Eigen::VectorXd start_of(const std::vector<FitParameter>& parameters);

/// What the case says of each, as residuals: (x - stated) / spread, a row for
/// each that is held back. Their derivatives are 1 / spread.
Eigen::VectorXd stated_residuals(const std::vector<FitParameter>& parameters,
                                 const Eigen::VectorXd& x);
Eigen::MatrixXd stated_slopes(const std::vector<FitParameter>& parameters);

}  // namespace thinspot::solver
