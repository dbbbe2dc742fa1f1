#pragma once

#include "solver/result.hpp"
#include "solver/schedule.hpp"
#include "solver/uncertainty.hpp"

namespace thinspot::solver {

/// Everything that the outputs show, from what was computed.
Result assemble_result(const Schedule& schedule, const Case& c,
                       const Bands& bands);

}  // namespace thinspot::solver
