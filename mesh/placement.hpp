#pragma once

#include "mesh/section.hpp"

namespace thinspot::mesh {

/// From the part to that side of it, of length 1.
Point direction(Side side);

/// Puts a solid into its place. Beside the part means beside all copies of it
/// that the section holds already.
/// @throws InputError with keys relative to the solid.
PlacedSolid place(const Solid& solid, const Section& section);

}  // namespace thinspot::mesh
