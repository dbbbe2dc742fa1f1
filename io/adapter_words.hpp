#pragma once

#include "solver/inspect.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// Of each lead, one way, and what may be lost along both. The voltage is
/// common practice, no source: little against any cell's.
inline constexpr double kLeadLength = 1;  // [m]
inline constexpr double kMostDrop = 0.1;  // [V]

/// What an adapter needs in series, whether it suffices, and which wire the
/// current asks for; a line each for every rectifier.
std::vector<std::string> supply_words(const solver::Result& result);

/// The same before a solve, from the estimate of the cell.
std::vector<std::string> supply_words(const solver::Inspection& inspection,
                                      const solver::Case& c);

}  // namespace thinspot::io
