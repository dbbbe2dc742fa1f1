#pragma once

#include "solver/case.hpp"

#include <vector>

namespace thinspot::solver {

/// What the stages of a result take beside each other, so that progress goes
/// evenly. Guesses, from cases that take seconds: nothing else rests on them.
struct ExpectedWork {
  double solving = 0;   ///< every step, on a mesh that is fine enough
  double watching = 0;  ///< once more, where the sum is least and largest
  double growing = 0;   ///< with surfaces that move
  double bands = 0;     ///< each uncertain input moved
  double meaning = 0;   ///< appraisal

  double schedule() const { return solving + watching + growing; }
  double all() const { return schedule() + bands + meaning; }
};

ExpectedWork expected_work(const Case& c);

/// Of what comes after several layers that are solved each by itself.
ExpectedWork work_of_sum(const std::vector<Case>& layers);

}  // namespace thinspot::solver
