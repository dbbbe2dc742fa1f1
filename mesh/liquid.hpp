#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "mesh/size_field.hpp"

#include <string>
#include <vector>

namespace thinspot::mesh {

/// A curve of the liquid's boundary, and the piece of our own geometry that it
/// is.
struct LiquidCurve {
  int region = 0;  ///< of liquid; any number
  int owner = kWall;
  int loop = 0;
  int curve = 0;
  BoundaryPiece piece;
};

/// The liquid that carries current, cut and named.
struct Liquid {
  std::vector<LiquidCurve> curves;
  std::vector<CornerPoint> corners;
  std::vector<std::string> notes;
};

/// Longer side of the liquid's box [m].
double extent(const Section& section);

/// The curve that an owner, loop and index name: of a solid, of the liquid's
/// bounds, or of a turning disc.
const Curve& curve_of(const Section& section, int owner, int loop, int curve);

/// The stretch of such a curve between two fractions of its length, without
/// vertices yet.
/// @param solid  index into Section::solids; -1 for the liquid's bounds
LiquidCurve liquid_curve(const Section& section, int solid, int loop, int curve,
                         double from, double to);

/// Cuts the solids from the liquid and leaves only regions in which current can
/// flow.
/// @throws InputError where the part or an anode has no way for its current.
/// @throws NoResultError where solids touch and the geometry kernel fails.
Liquid cut_liquid(const Section& section);

}  // namespace thinspot::mesh
