#pragma once

#include "viz/frame.hpp"
#include "viz/scene.hpp"
#include "viz/section_field.hpp"

namespace thinspot::viz {

/// Tank, liquid, field and solids inside a frame, clipped to it.
/// @param field  nullptr: none is known.
/// @param walls  room around the frame for the tank's walls: 0 in a close-up.
void draw_panel(Svg& svg, const Scene& scene, const SectionField* field,
                const Frame& frame, double walls);

}  // namespace thinspot::viz
