#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/section_field.hpp"

namespace thinspot::viz {

/// Tank, liquid, field and solids inside a frame, clipped to it.
/// @param walls  room around the frame for the tank's walls: 0 in a close-up.
void draw_panel(Svg& svg, const solver::Result& result,
                const SectionField& field, const Frame& frame, double walls);

/// A line around the panel and numbers in mm beside and below it, unit
/// included; distances from the axis where there is one.
void draw_axes(Svg& svg, const Frame& frame, bool from_axis,
               LabelPlacer& placer);

/// Words beside the liquid's surface, where there is room above it.
void label_level(Svg& svg, const mesh::Section& section, const Frame& frame,
                 LabelPlacer& placer);

inline constexpr double wall_width = 5;  ///< on the page

/// Keeps labels off an outline.
void block_outline(LabelPlacer& placer, const mesh::Outline& outline,
                   const Frame& frame);

/// Values beside some of the lines of equal potential, where there is room.
void label_equipotentials(Svg& svg, const SectionField& field,
                          const Frame& frame, LabelPlacer& placer);

}  // namespace thinspot::viz
