#pragma once

#include "solver/coarse_levels.hpp"
#include "solver/corners.hpp"

#include <vector>

namespace thinspot::solver {

/// A cycle over a system of quadratic fields: smoothed by Gauss and Seidel
/// there and back, corrected by linear fields on the same triangles, and those
/// by groups of corners. A symmetric positive definite operator close to the
/// inverse, whatever the size.
class Multigrid {
 public:
  /// @param a     whose held nodes have rows and columns of the identity
  /// @param held  of each of the border's nodes
  Multigrid(const BorderedRows& a, const Corners& corners,
            const std::vector<bool>& held);

  struct Room {
    LaneVector right, x;  ///< of the corners
    CoarseLevels::Room coarse;
  };
  Room room() const;

  /// x = cycle applied to right; in held nodes nothing where right is nothing.
  /// @param rest  overwritten
  /// @returns     right . x
  Lanes cycle(const LaneVector& right, LaneVector& x, LaneVector& rest,
              Room& room) const;

 private:
  const BorderedRows& a_;
  const Corners& corners_;
  std::vector<int> held_;  ///< corners
  CoarseLevels coarse_;
};

}  // namespace thinspot::solver
