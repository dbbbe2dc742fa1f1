#pragma once

#include "solver/deposit.hpp"
#include "solver/model.hpp"
#include "solver/result.hpp"
#include "solver/uncertainty.hpp"

#include <chrono>

namespace thinspot::solver {

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

/// Everything that the outputs show, from what was computed.
Result assemble_result(const Model& model, const Case& c,
                       const Outcome& outcome, const Bands& bands);

}  // namespace thinspot::solver
