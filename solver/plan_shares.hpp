#pragma once

#include "solver/layout.hpp"

#include <vector>

namespace thinspot::solver {

/// The steps with the shares of time that make the thinnest judged spot
/// thickest; as they are where that gains less than a hundredth.
std::vector<Step> best_shares(Layout& layout, const std::vector<Step>& steps,
                              double factor);

}  // namespace thinspot::solver
