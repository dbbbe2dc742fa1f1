#pragma once

#include "tests/peers/liquid_border.hpp"

#include <vector>

namespace thinspot::tests {

/// How long the edges of a mesh may be. All shrink with one factor, so that two
/// finenesses tell how much is still missing.
struct Fineness {
  double at_corner;  ///< where the boundary turns or its condition changes [m]
  double at_cut;     ///< where it goes on smoothly [m]
  double growth;     ///< longer by this share of the distance from an end
  double across;     ///< share of the distance to what lies opposite
  double turn;       ///< on an arc [rad]
  double largest;    ///< [m]
  Fineness times(double factor) const;
};

/// Fractions 0 ... 1 of each border's length at which points lie that far
/// apart.
std::vector<std::vector<double>> spaced(const std::vector<Border>& borders,
                                        const Fineness& fineness);

/// A point of the boundary, and how long edges may be there [m].
struct Landmark {
  mesh::Point at = mesh::Point::Zero();
  double size = 0;
};

/// As few as tell the size anywhere, within a half:
///   the least of largest, and size + growth * distance over all landmarks
std::vector<Landmark> landmarks(const std::vector<Border>& borders,
                                const Fineness& fineness);

}  // namespace thinspot::tests
