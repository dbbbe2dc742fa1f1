#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"

#include <vector>

namespace thinspot::viz {

/// Points of one face at which a label may stand: the one in its middle first,
/// then those at these shares of its points; of what the frame shows.
/// @param wetted  only those that the liquid reaches
std::vector<const solver::SurfacePoint*> places_on_face(
    const solver::PartResult& part, std::size_t face, const Frame& frame,
    const std::vector<double>& shares, bool wetted);

}  // namespace thinspot::viz
