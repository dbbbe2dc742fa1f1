#pragma once

#include "viz/dimensions.hpp"
#include "viz/scene.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::viz {

/// One thing that a ruler needs beside the free distances to stand a solid
/// where it is drawn.
struct Placing {
  std::size_t solid = 0;
  std::string words;  ///< "44 mm from the left wall", "on the floor"
  std::optional<Dimension> line;  ///< none where the words do
};

/// Of the shown part: how far it is from a wall (seen from above, from one in
/// either direction) and, from the side, below the liquid's surface. Of what
/// stands beside it: how high, or how far from a wall, where that does not
/// follow from its free distance or from being centred on the part; and what
/// it is tilted by. Where metal is between the part and both walls, the wall's
/// distance is that of what is beside the part. None across an axis.
std::vector<Placing> placings(const Scene& scene);

/// "part: 35 mm below the surface, 44 mm from the right wall; left sheet and
/// right sheet: top 20 mm below the surface".
std::string in_words(const Scene& scene, const std::vector<Placing>& placings);

/// By how much the long side of a solid leans, counter-clockwise, from the
/// upright or from the level, whichever is nearer.
struct Lean {
  double angle = 0;    ///< -pi/4 to pi/4 [rad]; 0 for what is round
  bool level = false;  ///< from the level
};
std::string degrees(const Lean& lean);  ///< "10°", without its sign
Lean lean_of(const mesh::Solid& solid, mesh::Cut cut);

/// The lines of those that have one, as far as there is room beside them, and
/// the angles of what leans.
void draw_placings(Svg& svg, const Scene& scene,
                   const std::vector<Placing>& placings, const Frame& frame,
                   LabelPlacer& placer, const DimensionManner& manner);

}  // namespace thinspot::viz
