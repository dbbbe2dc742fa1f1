#pragma once

#include "solver/result.hpp"

namespace thinspot::tests {

/// The square of sample_result() three times on a rack, thinner from left to
/// right, each with a clip over a bare mark; a thief and a floating sheet.
solver::Result rack_result();

}  // namespace thinspot::tests
