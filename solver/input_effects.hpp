#pragma once

#include "solver/moved_inputs.hpp"
#include "solver/progress.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <vector>

namespace thinspot::solver {

/// What a group of inputs does to the row of figures, each way [squares].
struct InputEffect {
  std::size_t layer = 0, group = 0;  ///< of the layers' groups
  Eigen::VectorXd up, down;          ///< of the figures alone
};

/// All inputs moved to their ends, one direction after the other.
struct InputEffects {
  Eigen::VectorXd base;      ///< the row with what was solved
  Eigen::VectorXd share;     ///< by which a change as drawn becomes one of it:
                             ///< 1 where surfaces do not move
  Eigen::VectorXd up, down;  ///< of the whole row, squares
  std::vector<InputEffect> each;
  /// How far the inputs are from acting in proportion on the least judged
  /// thickness, worst part: root of the sum of squares of f+ + f- - 2 f0 over
  /// that of f+ - f-.
  double bend = 0;
  bool stops = false;  ///< at an end nothing at all is left of it
};
InputEffects input_effects(const Schedule& schedule,
                           const std::vector<LayerOfSteps>& layers,
                           const Progress& progress);

/// Every input drawn by lot at once: one row a draw.
/// @param effects  for what is solved and how changes follow
Eigen::MatrixXd drawn_rows(const Schedule& schedule,
                           const std::vector<LayerOfSteps>& layers,
                           const InputEffects& effects, Eigen::Index draws,
                           const Progress& progress);

/// What one draw takes, in multiplications and additions, about.
double work_of_draw(const Schedule& schedule);

}  // namespace thinspot::solver
