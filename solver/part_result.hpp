#pragma once

#include "solver/deposit.hpp"
#include "solver/model.hpp"
#include "solver/result.hpp"

namespace thinspot::solver {

/// Faces, spots, surface points and sums of one part; bands still empty.
PartResult describe_part(const Model& model, const Case& c,
                         const Surface& surface, const PartOutcome& outcome);

}  // namespace thinspot::solver
