#pragma once

#include <array>
#include <vector>

namespace thinspot::viz {

/// Joins directed edges (from, to) head to tail into closed loops of point
/// numbers; what does not close is left out.
std::vector<std::vector<int>> closed_loops(
    const std::vector<std::array<int, 2>>& edges);

/// The directed edges of polygons that no neighbour shares: the rim of their
/// union. @pre polygons have the same sense of turning; numbers are not
/// negative.
std::vector<std::array<int, 2>> rim(
    const std::vector<std::vector<int>>& polygons);

}  // namespace thinspot::viz
