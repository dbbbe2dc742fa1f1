#pragma once

#include "mesh/errors.hpp"
#include "mesh/section.hpp"

#include <vector>

namespace thinspot::mesh {

/// Everything below this share of the tank's size counts as touching.
inline constexpr double kTouch = 1e-7;
/// Smallest feature that a mesh of the whole tank can still resolve.
inline constexpr double kSmallestFeature = 1e-5;

double extent(const Outline& bounds);  ///< larger side of its box [m]

/// Boxes that neither touch nor overlap: nothing more to look at.
bool boxes_apart(const PlacedSolid& a, const PlacedSolid& b, double touch);

/// Through a wall, off the axis, out of the liquid.
void check_place(const PlacedSolid& placed, const Section& section,
                 std::vector<Problem>& problems);

/// Too small for a mesh of the whole tank, or without thickness.
void check_features(const PlacedSolid& placed, const Section& section,
                    std::vector<Problem>& problems);

/// Two solids that touch or overlap though they must not. A clip may hold the
/// part, a shield may lie on anything.
void check_pair(const PlacedSolid& a, const PlacedSolid& b, double touch,
                std::vector<Problem>& problems);

}  // namespace thinspot::mesh
