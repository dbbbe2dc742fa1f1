#include "viz/label_placer.hpp"

#include <algorithm>
#include <numeric>

namespace thinspot::viz {

bool LabelPlacer::free(const TextBox& box) const {
  const bool inside = box.left >= bounds_.left && box.right <= bounds_.right &&
                      box.top >= bounds_.top && box.bottom <= bounds_.bottom;
  return inside &&
         std::none_of(taken_.begin(), taken_.end(), [&](const TextBox& other) {
           return overlap(box, other);
         });
}

bool LabelPlacer::take(const TextBox& box) {
  if (!free(box)) return false;
  block(box);
  return true;
}

std::vector<double> spread_apart(const std::vector<double>& wanted,
                                 double height, double low, double high) {
  const std::size_t n = wanted.size();
  if (n == 0) return {};
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](auto a, auto b) { return wanted[a] < wanted[b]; });
  const double step = std::min(height, (high - low) / static_cast<double>(n));
  std::vector<double> result(n);
  double least = low + step / 2;
  for (const std::size_t k : order) {  // push down where they touch
    result[k] = std::max(wanted[k], least);
    least = result[k] + step;
  }
  double most = high - step / 2;
  for (auto k = order.rbegin(); k != order.rend(); ++k) {  // and back up
    result[*k] = std::min(result[*k], most);
    most = result[*k] - step;
  }
  return result;
}

}  // namespace thinspot::viz
