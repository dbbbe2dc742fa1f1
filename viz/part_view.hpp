#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"

namespace thinspot::viz {

/// How many times too thick the coating is drawn in this frame: 1, 2 or 5
/// times a power of ten, so that the heaviest of all copies fits into its
/// room; at most 100 000 times.
double exaggeration(const solver::Result& result, const Frame& frame);

/// The coating as a band over the surface of every copy, the target as a
/// dashed line over the judged surface, and what stays bare.
void draw_coating(Svg& svg, const solver::Result& result, const Frame& frame,
                  double factor);

/// Keeps labels off the bands.
void block_coating(LabelPlacer& placer, const solver::Result& result,
                   const Frame& frame, double factor);

/// False where the target lies too far out to be drawn over the part.
bool target_is_drawn(const solver::Result& result, const Frame& frame,
                     double factor);

}  // namespace thinspot::viz
