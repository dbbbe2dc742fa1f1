#include "solver/standing_out.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace thinspot::solver {

namespace {

/// Share of the largest value below which values are the same: in the six
/// digits that are told of them. Meshes of sides that are alike differ by more
/// than rounding, and not in the same way on every machine.
constexpr double kAlike = 1e-6;

}  // namespace

std::vector<std::size_t> from_largest(const std::vector<double>& values) {
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(
      order.begin(), order.end(),
      [&](std::size_t a, std::size_t b) { return values[a] > values[b]; });
  double scale = 0;
  for (const double value : values) scale = std::max(scale, std::abs(value));
  for (auto first = order.begin(); first != order.end();) {
    auto last = first + 1;
    while (last != order.end() &&
           values[*(last - 1)] - values[*last] <= kAlike * scale)
      ++last;
    std::sort(first, last);
    first = last;
  }
  return order;
}

std::vector<Extreme> standing_out(const std::vector<Extreme>& averages,
                                  double sign, double prominence, bool closed) {
  const auto n = static_cast<int>(averages.size());
  if (n == 0) return {};
  const auto height = [&](int k) {
    return sign * averages[static_cast<std::size_t>(((k % n) + n) % n)].value;
  };
  // How far the ground falls before it rises above the top again.
  const auto drop = [&](int top, int way) {
    double lowest = height(top);
    for (int step = 1; step < n; ++step) {
      const int k = top + way * step;
      if (!closed && (k < 0 || k >= n)) return height(top) - lowest + 1e300;
      if (height(k) > height(top)) return height(top) - lowest;
      lowest = std::min(lowest, height(k));
    }
    return 1e300;
  };
  std::vector<std::pair<double, Extreme>> found;
  for (int k = 0; k < n; ++k) {
    const double before = closed || k > 0 ? height(k - 1) : -1e300;
    const double after = closed || k + 1 < n ? height(k + 1) : -1e300;
    if (height(k) < before || height(k) <= after) continue;
    if (std::min(drop(k, -1), drop(k, +1)) < prominence) continue;
    found.emplace_back(height(k), averages[static_cast<std::size_t>(k)]);
  }
  std::vector<double> heights;
  for (const auto& [height_there, extreme] : found)
    heights.push_back(height_there);
  std::vector<Extreme> result;
  for (const std::size_t k : from_largest(heights))
    result.push_back(found[k].second);
  return result;
}

}  // namespace thinspot::solver
