#pragma once

#include "viz/axis_scale.hpp"
#include "viz/legend_column.hpp"
#include "viz/sweep_axis.hpp"

#include <vector>

namespace thinspot::viz {

/// The figure upwards in a panel. All results are shown, and the target where
/// it lies so near that they still fill a good part of the height.
AxisScale figure_scale(const SweptFigure& figure,
                       const std::vector<double>& values, const TextBox& box);

/// Room that its numbers need left of the panel.
double figure_numbers_width(const AxisScale& scale);

/// Rules over the panel with or without numbers beside it.
void draw_figure_rules(Svg& svg, const AxisScale& scale, const TextBox& box,
                       bool numbers);

/// Rules at the numbers or words of the key, and a frame.
void draw_key_rules(Svg& svg, const SweepAxis& axis, const TextBox& box);

/// A dashed line, where the target lies in the panel.
void draw_target_line(Svg& svg, const SweptFigure& figure,
                      const AxisScale& scale, const TextBox& box);

/// Its sign and words, or which way it lies off the panel; nothing where there
/// is no target.
void add_target_line_entry(Svg& svg, LegendColumn& column,
                           const SweptFigure& figure, const AxisScale& scale);

/// A small cross at the bottom of a panel: a point without a result.
void draw_no_result(Svg& svg, const std::vector<double>& across, double height);

}  // namespace thinspot::viz
