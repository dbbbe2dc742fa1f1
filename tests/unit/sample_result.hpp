#pragma once

#include "solver/result.hpp"

namespace thinspot::tests {

/// A result made by hand, small enough to check every number printed from it:
/// a square part of 10 mm with four points on its surface, two quadratic
/// triangles of liquid, one anode, 40 min at 0.33 A, target 10 µm missed.
solver::Result sample_result();

/// Its step, and of other results by hand: 40 min in the cell as it is.
solver::StepResult only_step(const solver::CellResult& cell,
                             double part_current);

}  // namespace thinspot::tests
