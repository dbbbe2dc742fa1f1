#pragma once

#include <algorithm>
#include <chrono>
#include <vector>

namespace thinspot::bench {

/// Time that a piece of work takes [s].
template <class Work>
double seconds_of(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start)
      .count();
}

/// Median of some runs [ms].
template <class Work>
double median_of(int times, const Work& work) {
  std::vector<double> all;
  for (int k = 0; k < times; ++k) all.push_back(1e3 * seconds_of(work));
  std::sort(all.begin(), all.end());
  return all[all.size() / 2];
}

}  // namespace thinspot::bench
