#pragma once

#include "mesh/section.hpp"
#include "solver/stretch.hpp"
#include "solver/surface.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// A stretch of a loop that no current reaches, all of one face and for one
/// reason.
struct DryStretch {
  Stretch where;
  std::string face;
  std::string why;       ///< "under the clip top", "out of the liquid"
  bool contact = false;  ///< other metal touches it there
};

/// Where a solid stands, and among what else.
struct Standing {
  const mesh::Section* section = nullptr;
  std::size_t solid = 0;
  bool backwards = false;  ///< its outline is walked the other way there, as a
                           ///< flipped solid's is against how it is drawn
};

/// What of a loop is not wetted, in the order of arc from the end of a wetted
/// stretch; the closing line on the axis, which is no metal, is left out.
/// @param drawn  the solid's outline where the loop is walked
/// @param steps  how it stood while that went on; where the reasons differ all
///               are told
std::vector<DryStretch> dry_stretches(const mesh::Outline& drawn,
                                      const std::vector<Standing>& steps,
                                      const SurfaceLoop& loop);

/// The same in one section.
std::vector<DryStretch> dry_stretches(const mesh::Section& section,
                                      std::size_t solid,
                                      const SurfaceLoop& loop);

}  // namespace thinspot::solver
