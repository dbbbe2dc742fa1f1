#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"
#include "mesh/size_field.hpp"

#include <string>
#include <vector>

namespace thinspot::mesh {

/// A curve of the liquid's boundary in the current Gmsh model, and the piece
/// of our own geometry that it is.
struct LiquidCurve {
  int tag = 0;  ///< of the Gmsh curve
  int owner = kWall;
  int loop = 0;
  int curve = 0;
  BoundaryPiece piece;
};

/// The liquid that carries current, cut and named.
struct Liquid {
  std::vector<int> surfaces;  ///< Gmsh tags, one a region
  std::vector<LiquidCurve> curves;
  std::vector<CornerPoint> corners;
  std::vector<std::string> notes;
};

/// Model units of Gmsh per metre: the liquid then spans about 1000, far above
/// OpenCASCADE's fixed tolerance of 1e-7.
double model_scale(const Section& section);

/// The outline curve that an owner, loop and index name.
const Curve& curve_of(const Section& section, int owner, int loop, int curve);

/// Cuts the solids from the liquid in the current Gmsh session and leaves in
/// its model only regions in which current can flow.
/// @pre  a GmshSession lives.
/// @throws InputError where the part or an anode has no way for its current.
Liquid cut_liquid(const Section& section);

}  // namespace thinspot::mesh
