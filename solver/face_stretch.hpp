#pragma once

#include "mesh/section.hpp"

#include <string>

namespace thinspot::solver {

/// One end of a stretch of a face: how far away along the surface, and what
/// begins there.
struct StretchEnd {
  enum class Kind { face, axis, lacquer, liquid_surface, wall, solid };
  double distance = 0;  ///< from the place asked about [m]
  Kind kind = Kind::face;
  std::string name;  ///< of the face or solid that begins there
};

/// The open stretch of one face that holds a place: bounded by other faces, the
/// axis, lacquer, the liquid's surface, the tank's wall, or a solid that
/// touches the surface.
struct FaceStretch {
  bool whole_loop = false;   ///< no end on the way round; before and after
                             ///< are then of no meaning
  StretchEnd before, after;  ///< against and in the sense of the outline
  mesh::Box box;             ///< around the stretch [m]
};

/// @param outline  of one of the section's solids
FaceStretch face_stretch(const mesh::Section& section,
                         const mesh::Outline& outline, int loop, int curve,
                         double t);

}  // namespace thinspot::solver
