#pragma once

#include "solver/model.hpp"
#include "solver/outcome.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"

#include <vector>

namespace thinspot::solver {

/// What each electrode that is not the part carries. Largest current densities
/// are averages over 1 mm, since a point at a sharp corner has no value.
/// Anodes that are off or out of the tank in the last step have no current
/// then; losses are those of all steps.
std::vector<AnodeResult> describe_anodes(const Schedule& schedule,
                                         const Case& c);

/// Clips or thieves.
std::vector<CathodeResult> describe_cathodes(const Model& model,
                                             const Outcome& outcome,
                                             mesh::Role role);

std::vector<FloatingResult> describe_floating(const Model& model,
                                              const Outcome& outcome);

std::vector<WireResult> describe_wires(const Case& c, const Outcome& outcome,
                                       const SectionScale& scale);

}  // namespace thinspot::solver
