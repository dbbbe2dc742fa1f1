#pragma once

#include "solver/case.hpp"
#include "solver/result.hpp"

namespace thinspot::solver {

/// From a case to the thickness over the part: the main path.
/// @throws InputError where the set-up is at fault.
/// @throws NoResultError where no trustworthy result comes of it.
Result simulate(const Case& c);

}  // namespace thinspot::solver
