#pragma once

#include "solver/case.hpp"
#include "solver/schedule.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::solver {

/// What all steps of a schedule go by: the numbers of each, and its growth.
struct StepsInputs {
  std::vector<Eigen::VectorXd> numbers;  ///< as of inputs_of
  std::vector<double> growth;            ///< [m per A/m2]
};

/// How they change with one input of the case.
struct InputChange {
  std::string key;
  double at = 0;      ///< value of the input
  StepsInputs by;     ///< derivative
  bool bent = false;  ///< there is none here: to more it is another than to
                      ///< less, as of a step's duration at the end of a round
};

/// The change with each quantity of for_each_quantity. No currents are solved:
/// what a step inherits, overrides and makes floating is read off the cases of
/// its steps, by differences, which of numbers so nearly linear are right to
/// ten digits.
std::vector<InputChange> input_changes(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
