#pragma once

#include "mesh/generate.hpp"

namespace thinspot::mesh {

/// One side of the section's turning discs.
enum class DiscSide { inside, outside };

/// As generate(), but of what lies on one side of the discs: to be joined, by
/// the waves of their circles, to any other side with the same circles.
/// @pre the section has discs
Mesh generate_side(const Section& section, const Grading& grading,
                   DiscSide side);

}  // namespace thinspot::mesh
