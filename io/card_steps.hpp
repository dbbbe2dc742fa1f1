#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What to do in each step: what is changed since the step before, what is set,
/// what the meter should read, how long. Of several layers all steps in order,
/// each tank named where it begins.
std::vector<std::string> card_steps(const solver::Result& result);

}  // namespace thinspot::io
