#pragma once

#include "solver/schedule.hpp"

namespace thinspot::solver {

/// A schedule of the same set-up with other quantities (for_each_quantity), on
/// the meshes that it has; surfaces as drawn, also where the schedule's moved.
/// Steps that share a solution share it again. Mesh errors are those of before.
/// @param c  the schedule's own case but for its quantities
/// @throws CaseError where no current flows with these.
Schedule answered_again(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
