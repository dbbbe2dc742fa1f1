#include "io/cli/time_left.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::io::cli {

namespace {

constexpr double kShareEnough = 0.05, kSecondsEnough = 1;
/// In this part of the time that has passed, and in no less than that, two
/// thirds of what a new pace would change have come in.
constexpr double kSlow = 0.05, kSlowSeconds = 0.5;
/// However far the new pace lies from what was said, so much of it holds.
constexpr double kLeast = 0.5;

}  // namespace

std::optional<double> TimeLeft::after(double share, double seconds) {
  if (!(share > 0) || (share < kShareEnough && seconds < kSecondsEnough))
    return std::nullopt;
  const double guess = seconds / std::min(share, 1.0);
  const double settling = std::max(kSlowSeconds, kSlow * seconds);
  const double weight =
      end_ ? -std::expm1(-std::max(seconds - last_, 0.0) / settling) : 1;
  end_ = std::lerp(end_.value_or(guess), guess, weight);
  last_ = seconds;
  return std::max({*end_ - seconds, kLeast * (guess - seconds), 0.0});
}

}  // namespace thinspot::io::cli
