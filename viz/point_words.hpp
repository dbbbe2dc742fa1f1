#pragma once

#include "viz/window_data.hpp"

#include <string>

namespace thinspot::viz {

/// What the window says of a surface point: thickness and current density, or
/// that there is no coating, then face, arc and place.
std::string point_words(const SurfaceData& surface, Eigen::Index point);

}  // namespace thinspot::viz
