#pragma once

#include "viz/legend_column.hpp"
#include "viz/sweep_panel.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// Name, unit, a bar of all colours with numbers, and the target on it.
void draw_colour_scale(Svg& svg, LegendColumn& column,
                       const SweptFigure& figure, const CellScale& scale);

/// The border's sign, or that all or no points meet the target.
/// @pre figure.wanted
void add_target_entry(Svg& svg, LegendColumn& column, const SweptFigure& figure,
                      const std::vector<double>& values, const MapSeen& seen);

/// How the best point is marked, for a legend.
void draw_best_sign(Svg& svg, Point centre, bool framed);

/// What hatching means, and how many points share a cell.
void add_map_notes(Svg& svg, LegendColumn& column, const CellScale& scale,
                   const MapSeen& seen);

/// What the letters at an axis stand for, if it has any.
void add_letter_entries(LegendColumn& column, const SweepAxis& axis,
                        const std::string& name);

}  // namespace thinspot::viz
