#pragma once

#include "solver/plan.hpp"

#include <cstddef>
#include <string>

namespace thinspot::tests {

/// What a made-up plan is to look like.
struct PlanWanted {
  std::size_t set_ups = 3;
  std::size_t points = 6;  ///< of the trade-off
  double longest = 3;      ///< its times go up to so many times the least
  std::size_t levers = 6;
  std::string title = "A bar in a tank";
  std::string name = "two anodes, turned once";  ///< of the recommended one
  bool alike = false;  ///< every set-up and point at one place
};

/// A plan made without a search: figures that one can check by hand, results
/// of synthetic_result(). The drawn set-up takes 80 min at a ratio of 2.6, the
/// recommended one 46 min at 1.9.
solver::Plan plan_sample(const PlanWanted& wanted = {});

}  // namespace thinspot::tests
