#include "solver/extremes.hpp"

#include <algorithm>

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

std::vector<Extreme> averages_over(const Surface& surface,
                                   const Eigen::VectorXd& values, double window,
                                   bool judged_only) {
  std::vector<Extreme> all;
  for (std::size_t l = 0; l < surface.loops.size(); ++l) {
    const SurfaceLoop& loop = surface.loops[l];
    const Profile profile(loop, values);
    for (Extreme e :
         profile.averages(judged_only ? loop.judged : loop.open, window)) {
      e.of_loop = l;
      all.push_back(e);
    }
  }
  return all;
}

Extreme most_extreme(const std::vector<Extreme>& averages, double sign,
                     double mean) {
  if (averages.empty()) return {0, mean, 0, 0, 0};
  return *std::max_element(averages.begin(), averages.end(),
                           [sign](const Extreme& a, const Extreme& b) {
                             return sign * a.value < sign * b.value;
                           });
}

}  // namespace thinspot::solver
