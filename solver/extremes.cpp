#include "solver/extremes.hpp"

#include "solver/deposit.hpp"

namespace thinspot::solver {

Extremes extremes_over(const Surface& surface, const Eigen::VectorXd& values,
                       double window, double mean) {
  const auto open = averages_over(surface, values, window, false);
  const auto judged = averages_over(surface, values, window, true);
  Extremes e;
  e.least = most_extreme(open, -1, mean);
  e.largest = most_extreme(open, +1, mean);
  e.least_judged = most_extreme(judged, -1, mean);
  e.spread = {e.least.value, mean, e.largest.value};
  return e;
}

}  // namespace thinspot::solver
