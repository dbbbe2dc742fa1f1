#pragma once

#include "solver/result.hpp"
#include "viz/marks.hpp"
#include "viz/section_field.hpp"
#include "viz/svg.hpp"

#include <vector>

namespace thinspot::viz {

/// What the legend has to explain.
struct LegendInput {
  const solver::Result& result;
  const SectionField& field;
  const std::vector<Mark>& marks;
  double factor = 1;      ///< how many times too thick the coating is drawn
  double part_scale = 1;  ///< page units per metre where it is drawn
  bool target_drawn = true;
  std::size_t names_left_out = 0;
};

/// Two columns below the pictures. @returns where they end.
double draw_section_legend(Svg& svg, const LegendInput& input, double top);

}  // namespace thinspot::viz
