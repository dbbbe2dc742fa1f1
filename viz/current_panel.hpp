#pragma once

#include "solver/result.hpp"
#include "viz/chart_scales.hpp"
#include "viz/svg.hpp"

namespace thinspot::viz {

/// Up to what current density the panel goes [A/dm2].
double highest_current(const solver::PartResult& part,
                       const solver::Target& target);

/// Current density of the last step along the unrolled surface, with the
/// working range and the limit from which coatings burn.
void draw_current(Svg& svg, const solver::Result& result,
                  const solver::PartResult& part, const UnrolledScale& along,
                  const UprightScale& scale);

}  // namespace thinspot::viz
