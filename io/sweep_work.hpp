#pragma once

#include "io/sweep.hpp"
#include "io/sweep_answer.hpp"
#include "solver/kept_set_up.hpp"

#include <cstdint>
#include <memory>
#include <optional>

namespace thinspot::io {

/// Computes points, one after the other; keeps the meshes of the group of the
/// last one.
class SweepWork {
 public:
  /// @param sweep  outlives this
  explicit SweepWork(const Sweep& sweep) : sweep_(sweep) {}

  /// Never throws of what the point is; its answer says what is wrong.
  /// @param alone  on a mesh of its own, whatever its group has
  SweepAnswer answer(std::uint64_t point, bool alone);

 private:
  solver::SetUpFigures figures(std::uint64_t point, bool alone);

  const Sweep& sweep_;
  std::optional<std::uint64_t> group_;
  std::unique_ptr<const solver::KeptSetUp> kept_;
};

}  // namespace thinspot::io
