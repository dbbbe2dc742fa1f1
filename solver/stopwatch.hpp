#pragma once

#include <chrono>

namespace thinspot::solver {

/// Runs from its making.
class Stopwatch {
 public:
  double seconds() const {
    const auto now = std::chrono::steady_clock::now();
    return std::chrono::duration<double>(now - start_).count();
  }

 private:
  std::chrono::steady_clock::time_point start_ =
      std::chrono::steady_clock::now();
};

}  // namespace thinspot::solver
