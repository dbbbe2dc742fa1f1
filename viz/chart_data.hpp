#pragma once

#include "solver/result.hpp"
#include "viz/chart_scales.hpp"
#include "viz/svg.hpp"

namespace thinspot::viz {

/// What a page's script needs to tell the place under a pointer:
///   data-up      top and bottom of the thickness panel, least and largest [um]
///   data-places  of at most 400 points of the surface: page x, then x and y
///                in the section and arc [mm], thickness [um], current density
///                [A/dm2], face; points apart by ";"
void add_chart_data(Svg& svg, const solver::PartResult& part,
                    const UnrolledScale& along, const UprightScale& scale);

}  // namespace thinspot::viz
