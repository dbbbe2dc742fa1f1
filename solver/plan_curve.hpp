#pragma once

#include "solver/plan.hpp"
#include "solver/plan_search.hpp"

#include <vector>

namespace thinspot::solver {

/// What evenness costs in time: every structure and schedule that was found, at
/// currents from the least to the most that it bears; of these the ones that no
/// other is both quicker and more even than.
std::vector<TradeOff> trade_off(const SearchSpace& space,
                                const SearchResult& result);

}  // namespace thinspot::solver
