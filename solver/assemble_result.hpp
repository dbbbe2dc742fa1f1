#pragma once

#include "solver/deposit.hpp"
#include "solver/model.hpp"
#include "solver/result.hpp"
#include "solver/uncertainty.hpp"

namespace thinspot::solver {

/// Everything that the outputs show, from what was computed.
Result assemble_result(const Model& model, const Case& c,
                       const Outcome& outcome, const Bands& bands);

}  // namespace thinspot::solver
