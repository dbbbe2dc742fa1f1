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

void put_extremes(PartOutcome& part, const Surface& surface, double window,
                  double mean) {
  const Extremes e = extremes_over(surface, part.current_density, window, mean);
  part.least = e.least;
  part.largest = e.largest;
  part.least_of_judged = e.least_judged;
  part.current_density_spread = e.spread;
}

}  // namespace thinspot::solver
