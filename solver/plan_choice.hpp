#pragma once

#include "solver/plan_search.hpp"

#include <vector>

namespace thinspot::solver {

/// Those of a search that are proposed: first the simplest of those that are as
/// good as the best but for a fiftieth; then, best first, what asks for less:
/// fewer turns, fewer anodes, no shield, thief or anode inside of the part.
/// @param most  of them
std::vector<Found> chosen(const SearchSpace& space, const SearchResult& result,
                          std::size_t most);

}  // namespace thinspot::solver
