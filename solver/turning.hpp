#pragma once

#include "solver/case.hpp"

#include <vector>

namespace thinspot::solver {

/// One of the angles that stand for a part that turns within a step.
struct Angle {
  int index = 0;     ///< of the evenly spread ones, from 0: as the step has it
  double turn = 0;   ///< beyond the step's own [rad]
  double share = 1;  ///< of the step's time
};

/// The positions of one that stops, with the time at each; of one that does
/// not, `count` angles, each with the time at which it is the nearest. Those
/// with time alone, in their order, the first one last, so that a step ends as
/// it began. Shares add up to 1.
/// @param duration  of the step [s]
std::vector<Angle> angles_of(const Turning& turning, double duration,
                             int count);

/// A stretch of time in which the part does not turn.
struct Phase {
  std::size_t step = 0;  ///< of the case
  int index = 0;         ///< of its angle
};

/// The case with a step of its own for each angle.
struct Expanded {
  Case content;
  std::vector<Phase> phases;  ///< one for each of its steps
};
/// @param angles  how many stand for each step that turns without a stop
Expanded expanded(const Case& c, const std::vector<int>& angles);

}  // namespace thinspot::solver
