#pragma once

#include "solver/case.hpp"
#include "solver/plan.hpp"
#include "solver/schedule.hpp"

#include <vector>

namespace thinspot::solver {

/// What a small change of the bath, of the supply or of the time does to the
/// thinnest judged spot, told in the direction in which it helps: a tenth of
/// the conductivity, of the cathodes' polarization, of what the supplies are
/// set to, of the leads' resistance; a minute. By derivatives
/// (solver/sensitivity), so that a tenth is a straight line's; none where a
/// derivative does not hold, and none that does next to nothing. That which
/// does most first.
std::vector<Lever> levers(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
