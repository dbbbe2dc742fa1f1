#pragma once

#include "solver/case.hpp"

#include <string>

namespace thinspot::io {

/// What the summary tells of the solution, as a JSON object in user units, not
/// yet rounded.
std::string solution_json(const solver::Solution& solution);

}  // namespace thinspot::io
