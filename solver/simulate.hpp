#pragma once

#include "solver/case.hpp"
#include "solver/result.hpp"

#include <vector>

namespace thinspot::solver {

/// What is wanted beside the result itself.
struct Wanted {
  bool what_if = false;  ///< Result::what_if
};

/// From a case to the thickness over the part: the main path.
/// @throws InputError where the set-up is at fault.
/// @throws NoResultError where no trustworthy result comes of it.
Result simulate(const Case& c, const Wanted& wanted = {});

/// The same for several cases that are plated onto each other in their order,
/// as solver/layers.hpp has it.
/// @throws LayerError in place of InputError where it is of one of several.
Result simulate(const std::vector<Case>& layers, const Wanted& wanted = {});

}  // namespace thinspot::solver
