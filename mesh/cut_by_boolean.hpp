#pragma once

#include "mesh/liquid.hpp"

#include <vector>

namespace thinspot::mesh {

/// The boundary of the liquid with all solids taken off it by OpenCASCADE,
/// wherever they touch each other or the tank, region by region.
/// @throws NoResultError where the kernel fails
std::vector<LiquidCurve> cut_by_boolean(const Section& section);

}  // namespace thinspot::mesh
