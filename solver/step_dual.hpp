#pragma once

#include "solver/model.hpp"
#include "solver/step_inputs.hpp"
#include "solver/supply.hpp"

#include <Eigen/Core>

#include <memory>
#include <string>
#include <vector>

namespace thinspot::solver {

/// A figure of one step at work: a sum of these.
struct StepFigure {
  std::size_t electrode = 0;
  Eigen::VectorXd density;  ///< weights on the current densities at its nodes;
                            ///< empty: none
  Eigen::VectorXd current;  ///< on each electrode's current; empty: none
  double voltage = 0;       ///< on that at the supply's terminals
};

/// How figures of a step go by its numbers: one dual of the whole cell (laws,
/// slopes that follow the current, tangents, leads, supplies with what each
/// keeps to) for each figure, whatever the count of numbers.
class StepDual {
 public:
  /// @param alone  the step alone
  /// @param point  of it, settled
  StepDual(const Model& model, const Case& alone, const WorkingPoint& point);
  ~StepDual();
  StepDual(const StepDual&) = delete;
  StepDual& operator=(const StepDual&) = delete;

  /// Why no derivative holds at this very point, as a sentence; empty: all do.
  const std::string& bend() const;

  /// The point with currents and voltages of its own laws and answers.
  const WorkingPoint& point() const;

  /// Derivatives by the numbers in the order of InputPlaces, one column a
  /// figure; not a number where there is none: all at a bend, and of a
  /// resistance that is 0, as what holds the potential is another law.
  Eigen::MatrixXd by_inputs(const std::vector<StepFigure>& figures) const;

 private:
  class Cell;
  std::unique_ptr<const Cell> cell_;
};

}  // namespace thinspot::solver
