#pragma once

#include "mesh/section.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/section_field.hpp"

namespace thinspot::viz {

/// A line around the panel and numbers in mm beside and below it, unit
/// included; distances from the axis where there is one.
void draw_axes(Svg& svg, const Frame& frame, bool from_axis,
               LabelPlacer& placer);

/// The word "axis" beside it.
void draw_axis_name(Svg& svg, const Frame& frame, LabelPlacer& placer);

/// Whether a label would lie on metal: in a recess its far wall is near.
bool on_solid(const mesh::Section& section, const Frame& frame,
              const TextBox& box);

/// Whether a line on the page runs over metal.
bool meets_solid(const mesh::Section& section, const Frame& frame, Point from,
                 Point to);

TextBox box_about(Point centre, double width, double height);

/// Keeps labels off a line on the page.
void block_line(LabelPlacer& placer, Point from, Point to);

/// Keeps labels off an outline, off its mirror image too where there is one.
void block_outline(LabelPlacer& placer, const mesh::Outline& outline,
                   const Frame& frame, bool mirrored = false);

/// Values beside some of the lines of equal potential, where there is room.
void label_equipotentials(Svg& svg, const SectionField& field,
                          const Frame& frame, LabelPlacer& placer);

}  // namespace thinspot::viz
