#pragma once

#include "mesh/curve.hpp"

#include <string>
#include <vector>

namespace thinspot::mesh {

/// A corner of a polygon, rounded where the radius is not 0.
struct Corner {
  Point at = Point::Zero();  ///< of the sharp corner [m]
  double radius = 0;         ///< [m]
  std::string edge_face;     ///< face of the edge from here to the next corner
  std::string arc_face;      ///< face of the rounding
};

/// Closed loop through the corners, counter-clockwise for an outer loop.
/// Edges that the roundings use up are left out.
/// @throws InputError with key `radius_key` where roundings overlap.
Loop rounded_polygon(const std::vector<Corner>& corners,
                     const std::string& radius_key);

}  // namespace thinspot::mesh
