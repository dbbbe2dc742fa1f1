#pragma once

#include "mesh/curve.hpp"
#include "mesh/section.hpp"

namespace thinspot::mesh {

/// The outline with what the mask covers marked; curves are cut where it ends.
/// @param shift      from where the mask is drawn to where the outline is [m]
/// @param tolerance  an end of the mask that is nearer than this to an end of
///                   a curve is moved there [m]
/// @throws InputError with keys relative to the mask ("faces", "from").
Outline masked(const Outline& outline, const Mask& mask, const Point& shift,
               double tolerance);

}  // namespace thinspot::mesh
