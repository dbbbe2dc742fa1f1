#pragma once

#include "viz/window_data.hpp"

#include <vector>

namespace thinspot::viz {

/// One closed line along which the liquid ends, with the liquid on its left:
/// the outer one counter-clockwise, those around what stands in it clockwise.
struct Border {
  std::vector<Eigen::Vector2d> points;  ///< curved edges in pieces; the last
                                        ///< is joined to the first [mm]
  std::vector<bool> at_part;            ///< of the piece from each point on
  double area = 0;                      ///< signed [mm2]
};

/// All of them but the circles at which a mesh is parted for a part that turns.
/// @param part  surface of the parts where they stand in the liquid
std::vector<Border> borders_of(const LiquidData& liquid,
                               const SurfaceData& part);

/// Signed area of a closed line: positive counter-clockwise.
double signed_area(const std::vector<Eigen::Vector2d>& loop);

}  // namespace thinspot::viz
