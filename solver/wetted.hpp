#pragma once

#include "mesh/section.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// Where a solid's bare metal meets liquid that carries current.
struct Wetted {
  mesh::Loop pieces;   ///< in the sense of the outline, not closed
  double measure = 0;  ///< length [m]; axisymmetric area [m2]
};

struct WettedSection {
  std::vector<Wetted> of_solid;    ///< in the order of Section::solids
  std::vector<std::string> notes;  ///< pools without current, left out
  double liquid = 0;  ///< that carries current [m2]; axisymmetric [m3]
};

/// Cuts the section as a solve would, without meshing it.
/// @throws InputError where the part or an anode has no way for its current.
/// @throws NoResultError where the cut fails.
WettedSection find_wetted(const mesh::Section& section);

/// A point of a surface that stands for a share of it.
struct SurfaceSample {
  mesh::Point at = mesh::Point::Zero();      ///< [m]
  mesh::Point normal = mesh::Point::Zero();  ///< out of the metal
  double measure = 0;                        ///< [m]; axisymmetric [m2]
  const mesh::Curve* piece = nullptr;
};

/// Points along pieces, some forty on each.
std::vector<SurfaceSample> samples_of(const mesh::Loop& pieces, mesh::Cut cut);

/// Point of the pieces nearest to p. @pre pieces is not empty.
mesh::Point nearest_point(const mesh::Loop& pieces, const mesh::Point& p);

}  // namespace thinspot::solver
