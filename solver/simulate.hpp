#pragma once

#include "solver/case.hpp"
#include "solver/progress.hpp"
#include "solver/result.hpp"
#include "solver/wanted.hpp"

#include <vector>

namespace thinspot::solver {

/// From a case to the thickness over the part: the main path.
/// @param progress  told how far it is
/// @throws InputError where the set-up is at fault.
/// @throws NoResultError where no trustworthy result comes of it.
Result simulate(const Case& c, const Progress& progress = {},
                const Wanted& wanted = {});

/// The same for several cases that are plated onto each other in their order,
/// as solver/layers.hpp has it.
/// @throws LayerError in place of InputError where it is of one of several.
Result simulate(const std::vector<Case>& layers, const Progress& progress = {},
                const Wanted& wanted = {});

}  // namespace thinspot::solver
