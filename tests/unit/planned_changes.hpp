#pragma once

#include "solver/case.hpp"

#include <functional>
#include <vector>

namespace thinspot::tests {

/// Something that a plan may do to a case.
struct Change {
  const char* name;
  /// @returns false where the case has nothing of the kind
  std::function<bool(solver::Case&)> make;
};

/// Each kind of them; the first changes nothing.
std::vector<Change> plan_changes();

/// One more like the first anode, a little aside, with quotes in its name.
bool add_anode(solver::Case& c);

/// Without the first anode, where there are others.
bool lose_anode(solver::Case& c);

}  // namespace thinspot::tests
