#pragma once

#include "mesh/section.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"

#include <string>

namespace thinspot::viz {

/// The inside of the tank, above the liquid too; right half of an
/// axisymmetric one [m].
mesh::Outline tank_inside(const mesh::Section& section);

/// The walls around it, none across its mouth, and the air over the liquid.
/// @param clip  a bit larger than the frame, so that walls show
void draw_tank(Svg& svg, const mesh::Section& section, const Frame& frame,
               const std::string& clip);

/// The liquid's surface, pool by pool, with the draughtsman's triangle on the
/// widest. Nothing where the tank is seen from above.
void draw_level(Svg& svg, const mesh::Section& section, const Frame& frame,
                const std::string& clip);

/// Words beside the liquid's surface, where there is room above it.
void label_level(Svg& svg, const mesh::Section& section, const Frame& frame,
                 LabelPlacer& placer);

inline constexpr double wall_width = 5;  ///< on the page

}  // namespace thinspot::viz
