#pragma once

#include "solver/case.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::solver {

/// Half width of the normal distribution's 95 % interval, in standard
/// deviations.
inline constexpr double kOf95 = 1.959963984540054;
/// The same of an even distribution over that of its ends: kOf95 / sqrt(3).
inline constexpr double kEvenly = 1.131585734498474;

/// Half width of a quantity's 95 % interval, were it normal with the variance
/// that it has.
double half_width(const Quantity& q);

/// Uncertain quantities of one case whose errors go together, or one alone.
struct InputGroup {
  std::vector<std::string> keys;  ///< as for_each_quantity has them
  std::vector<Quantity> stated;
  Eigen::MatrixXd correlation;
};

/// Every uncertain quantity in one of the groups, in their order; pairs that
/// name anything else do not count.
std::vector<InputGroup> input_groups(Case c);

/// True where there can be such quantities: the matrix is positive definite,
/// by more than rounding.
bool is_possible(const InputGroup& group);

/// One of a group's independent directions.
struct Direction {
  Eigen::VectorXd change;  ///< of each quantity, 95 % out
  /// Share of it at which the case is answered, and what it changes then is
  /// blown up by its inverse: no quantity leaves its range.
  double reach = 1;
};
/// Along the axes of the correlation, scaled by the half widths.
std::vector<Direction> directions_of(const InputGroup& group);

/// Of voltages that count in a direction; what else there is cannot be.
/// @param key  as for_each_quantity has it
bool may_be_negative(const std::string& key);

/// What physics allows of a quantity: resistances are not negative,
/// efficiency is at most 1.
double within_reason(const std::string& key, double value, double moved);

/// Gives the group's quantities these values, as far as physics allows.
void set_quantities(Case& c, const InputGroup& group,
                    const Eigen::VectorXd& values);

/// As they were stated.
Eigen::VectorXd values_of(const InputGroup& group);

}  // namespace thinspot::solver
