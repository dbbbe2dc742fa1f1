#pragma once

#include "viz/chart_scales.hpp"
#include "viz/legend_column.hpp"

#include <cstddef>
#include <vector>

namespace thinspot::viz {

/// Thickness of the first layers together at a part's surface points [m].
/// @param part   index into Result::parts
/// @param count  of layers, from the metal up
std::vector<double> thickness_up_to(const solver::Result& result,
                                    std::size_t part, std::size_t count);

/// Each layer as a band of its metal, on the one before, along the unrolled
/// surface.
/// @param scale  in micrometres
void draw_layer_bands(Svg& svg, const solver::Result& result, std::size_t part,
                      const UnrolledScale& along, const UprightScale& scale);

/// What each band is, the uppermost first: its metal, thickness, and where its
/// own target is missed.
void add_layers(LegendColumn& legend, Svg& svg, const solver::Result& result,
                std::size_t part);

}  // namespace thinspot::viz
