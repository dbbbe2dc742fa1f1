#pragma once

#include "mesh/section.hpp"
#include "solver/result.hpp"

namespace thinspot::viz {

/// What stands where, and what the case says of it: all that a picture needs
/// without a solution.
struct Scene {
  const mesh::Section& section;
  const solver::Case& used;
  std::size_t shown = 0;  ///< the solid that the close-up shows

  bool round() const { return section.cut == mesh::Cut::axisymmetric; }
};

/// With the part that the pictures show.
Scene scene_of(const solver::Result& result);

/// With the first part. @pre there is one.
Scene scene_of(const solver::Case& c, const mesh::Section& section);

/// Whether the part hangs in several copies.
bool is_rack(const mesh::Section& section);

}  // namespace thinspot::viz
