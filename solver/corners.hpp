#pragma once

#include "solver/symmetric_rows.hpp"

#include <array>
#include <vector>

namespace thinspot::solver {

/// The way between quadratic fields on triangles and linear ones on the same:
/// of each node the two corners whose mean it is, a corner being its own.
struct Corners {
  std::vector<std::array<int, 2>> of;  ///< numbered among the corners
  int count = 0;
};

/// x += what the corners' field is at all nodes
void add_from_corners(const Corners& corners, const LaneVector& of_corners,
                      LaneVector& x);
/// What weighs on all nodes as it weighs on corners: the transpose.
void onto_corners(const Corners& corners, const LaneVector& x,
                  LaneVector& of_corners);

/// The matrix seen by linear fields, P^T a P.
/// @pre  a couples nodes of the same triangle only
SymmetricRows on_corners(const Corners& corners, const BorderedRows& a);

}  // namespace thinspot::solver
