#pragma once

#include "solver/certify.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// What a reader of least and largest should know of how they were come by:
/// sharp edges at which the ideal current density has no bound, and a
/// tolerance that was not reached.
std::vector<std::string> accuracy_notes(const Certified& solved, const Case& c);

}  // namespace thinspot::solver
