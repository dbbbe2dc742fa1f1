#pragma once

#include "solver/result.hpp"

#include <cstddef>
#include <vector>

namespace thinspot::io {

/// One loop of one part's surface.
struct LoopOfPart {
  int part = 0;
  int first_face = 0;  ///< of the part, where all parts' faces are one list
  const solver::PartResult* owner = nullptr;
  std::vector<const solver::SurfacePoint*> points;
};

/// The surface points of all parts, loop by loop, in the order in which they
/// are kept. They point into the result.
std::vector<LoopOfPart> loops_of(const solver::Result& result);

/// The walk along a loop by indices into its points: round to the first point
/// again where it is closed; from the axis to the axis where it meets that of
/// an axisymmetric section.
std::vector<std::size_t> walk_along(const LoopOfPart& loop,
                                    const solver::Result& result);

}  // namespace thinspot::io
