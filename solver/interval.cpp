#include "solver/interval.hpp"

#include <cmath>

namespace thinspot::solver {

int digits_worth(double value, const Interval& band) {
  return band.high - band.low > 0.1 * std::abs(value) ? 2 : 3;
}

}  // namespace thinspot::solver
