#include "solver/sliding_mean.hpp"

#include <algorithm>

namespace thinspot::solver {

double SlidingMean::at(std::size_t point,
                       const std::function<double(std::size_t)>& value) const {
  const auto arc = [&](std::size_t k) { return part_.surface[k].arc; };
  double integral = 0, covered = 0;
  for (const bool forwards : {true, false}) {
    double left = window_ / 2;
    std::size_t k = point;
    while (left > 0) {
      if (forwards ? k + 1 >= last_ : k == first_) break;
      const std::size_t next = forwards ? k + 1 : k - 1;
      if (!taken_[next]) break;
      const double way = forwards ? arc(next) - arc(k) : arc(k) - arc(next);
      const double here = std::min(way, left);
      if (way > 0) {
        const double end = value(k) + here / way * (value(next) - value(k));
        integral += here * (value(k) + end) / 2;
        covered += here;
      }
      left -= way;
      k = next;
    }
  }
  return covered > 0 ? integral / covered : value(point);
}

}  // namespace thinspot::solver
