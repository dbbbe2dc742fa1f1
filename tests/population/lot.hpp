#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

namespace thinspot::tests {

/// Choices that do not depend on the standard library's distributions.
class Lot {
 public:
  explicit Lot(std::uint64_t seed) : engine_(seed * 0x9E3779B97F4A7C15 + 1) {}

  double share() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  bool chance(double of_it) { return share() < of_it; }
  double even(double low, double high) { return std::lerp(low, high, share()); }
  double by_factor(double low, double high) {
    return low * std::pow(high / low, share());
  }
  int whole(int low, int high) {
    return std::min(high, low + static_cast<int>(share() * (high - low + 1)));
  }
  template <class T>
  const T& of(const std::vector<T>& all) {
    return all[static_cast<std::size_t>(
        whole(0, static_cast<int>(all.size()) - 1))];
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace thinspot::tests
