#pragma once

#include "solver/certify.hpp"
#include "solver/result.hpp"
#include "solver/uncertainty.hpp"

namespace thinspot::solver {

/// Everything that the outputs show, from what was computed.
Result assemble_result(const Certified& solved, const Case& c,
                       const Bands& bands);

}  // namespace thinspot::solver
