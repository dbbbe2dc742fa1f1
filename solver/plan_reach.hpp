#pragma once

#include "solver/plan.hpp"
#include "solver/plan_limits.hpp"

#include <optional>

namespace thinspot::solver {

/// Where the best set-up breaks a bound: which one to relax, and to what, so
/// that it or one with another turn would do.
std::optional<OutOfReach> out_of_reach(const Case& c, const PlanLimits& limits,
                                       const SetUp& best);

}  // namespace thinspot::solver
