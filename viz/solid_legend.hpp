#pragma once

#include "viz/legend_column.hpp"
#include "viz/scene.hpp"

namespace thinspot::viz {

/// One entry for each kind of solid in the tank but the part, and for lacquer.
void solid_entries(Svg& svg, LegendColumn& column, const Scene& scene);

/// A box to fill about a sign's centre.
TextBox swatch(Point centre);

}  // namespace thinspot::viz
