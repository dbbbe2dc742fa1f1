#pragma once

#include "tests/unit/synthetic_result.hpp"

#include <vector>

namespace thinspot::tests {

/// One made-up result for each thing that a bench may hold: clips, racks,
/// lacquer, tanks of any outline, parts of any shape and size.
std::vector<HardCase> set_ups();

/// The one of that name.
Synthetic set_up(const std::string& name);

/// Six bars of `size` in two rows, each with a clip on top.
Synthetic rack_of_six();

}  // namespace thinspot::tests
