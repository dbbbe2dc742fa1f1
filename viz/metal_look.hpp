#pragma once

#include <string>

namespace thinspot::viz {

/// How a metal is painted where several lie on each other: near to how it
/// looks, with an edge that is dark enough against paper.
struct MetalLook {
  std::string fill, edge;  ///< "#rrggbb"
};

/// @param layer  from 0; tells metals apart that have no colour of their own
MetalLook look_of_metal(const std::string& metal, std::size_t layer);

}  // namespace thinspot::viz
