#pragma once

#include "solver/result.hpp"
#include "viz/frame.hpp"
#include "viz/label_placer.hpp"
#include "viz/marks.hpp"

#include <optional>
#include <vector>

namespace thinspot::viz {

/// Signs and numbers of thin and heavy spots over the coating, kept apart.
/// @param elsewhere  spots in this box [m] are marked in another panel
void draw_marks(Svg& svg, const solver::Result& result,
                const std::vector<Mark>& marks, const Frame& frame,
                double factor, const std::optional<mesh::Box>& elsewhere,
                LabelPlacer& placer);

/// The names of the faces of the part shown beside them, where there is room.
void draw_face_names(Svg& svg, const solver::Result& result, const Frame& frame,
                     double factor, LabelPlacer& placer);

}  // namespace thinspot::viz
