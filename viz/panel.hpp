#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/section_field.hpp"

namespace thinspot::viz {

/// Tank, liquid, field and solids inside a frame, clipped to it.
void draw_panel(Svg& svg, const solver::Result& result,
                const SectionField& field, const Frame& frame);

/// A line around the panel and numbers in mm beside and below it, unit
/// included; distances from the axis where there is one.
void draw_axes(Svg& svg, const Frame& frame, bool from_axis,
               LabelPlacer& placer);

/// Keeps labels off an outline.
void block_outline(LabelPlacer& placer, const mesh::Outline& outline,
                   const Frame& frame);

/// Values beside some of the lines of equal potential, where there is room.
void label_equipotentials(Svg& svg, const SectionField& field,
                          const Frame& frame, LabelPlacer& placer);

}  // namespace thinspot::viz
