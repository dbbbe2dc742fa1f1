#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/marks.hpp"

#include <vector>

namespace thinspot::viz {

/// How many times too thick the coating is drawn in this frame: 1, 2 or 5
/// times a power of ten, so that the heaviest fits into its room; at most
/// 100 000 times.
double exaggeration(const solver::PartResult& part, const Frame& frame);

/// The coating as a band over the part's surface, and the target as a dashed
/// line over the judged surface.
void draw_coating(Svg& svg, const solver::Result& result, const Frame& frame,
                  double factor);

/// Signs and numbers of thin and heavy spots over the band, kept apart.
void draw_marks(Svg& svg, const solver::PartResult& part,
                const std::vector<Mark>& marks, const Frame& frame,
                double factor, LabelPlacer& placer);

/// The names of the faces beside them, where there is room.
void draw_face_names(Svg& svg, const solver::PartResult& part,
                     const Frame& frame, double factor, LabelPlacer& placer);

/// Keeps labels off the band.
void block_coating(LabelPlacer& placer, const solver::Result& result,
                   const Frame& frame, double factor);

/// False where the target lies too far out to be drawn over the part.
bool target_is_drawn(const solver::Result& result, const Frame& frame,
                     double factor);

}  // namespace thinspot::viz
