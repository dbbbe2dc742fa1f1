#include "solver/turning.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

constexpr double kWhole = 2 * std::numbers::pi;

std::vector<double> times_at_stops(const Turning& turning, double duration) {
  const int n = turning.positions;
  const double dwell = turning.dwell > 0 ? turning.dwell : duration / n;
  const double rounds = std::floor(duration / (dwell * n));
  const double rest = duration - rounds * dwell * n;
  std::vector<double> times;
  for (int k = 0; k < n; ++k)
    times.push_back(rounds * dwell + std::clamp(rest - k * dwell, 0.0, dwell));
  return times;
}

/// Overlap of two arcs, the second one not beyond a whole turn [rad].
double overlap(double from, double to, double reach) {
  return std::max(0.0, std::min(to, reach) - std::max(from, 0.0));
}

/// In turns, not in seconds.
std::vector<double> times_near(double turns, int count) {
  const double rounds = std::floor(turns);
  const double rest = kWhole * (turns - rounds), half = kWhole / count / 2;
  std::vector<double> times;
  for (int k = 0; k < count; ++k) {
    const double at = kWhole * k / count;
    const double again = overlap(at - half, at + half, rest) +
                         overlap(at - half + kWhole, at + half + kWhole, rest);
    times.push_back(rounds / count + again / kWhole);
  }
  return times;
}

}  // namespace

std::vector<Angle> angles_of(const Turning& turning, double duration,
                             int count) {
  const bool stops = turning.positions > 0;
  const std::vector<double> times =
      stops ? times_at_stops(turning, duration)
            : times_near(std::abs(turning.rate) * duration, count);
  double sum = 0;
  for (double t : times) sum += t;
  const double sense = turning.rate < 0 ? -1 : 1;
  std::vector<Angle> angles;
  for (std::size_t k = 0; k < times.size(); ++k)
    if (times[k] > 1e-12 * sum)
      angles.push_back({static_cast<int>(k),
                        sense * kWhole * double(k) / double(times.size()),
                        times[k] / sum});
  std::rotate(angles.begin(), angles.begin() + 1, angles.end());
  return angles;
}

Expanded expanded(const Case& c, const std::vector<int>& angles) {
  Expanded all{c, {}};
  all.content.steps.clear();
  for (std::size_t k = 0; k < c.steps.size(); ++k) {
    const Step& step = c.steps[k];
    std::vector<Angle> at{{}};
    if (step.turning)
      at = angles_of(*step.turning, step.duration.value, angles[k]);
    for (const Angle& angle : at) {
      Step phase = step;
      phase.turning.reset();
      phase.motion.turn += angle.turn;
      phase.duration.value *= angle.share;
      phase.duration.plus_minus *= angle.share;
      all.content.steps.push_back(std::move(phase));
      all.phases.push_back({k, angle.index});
    }
  }
  return all;
}

}  // namespace thinspot::solver
