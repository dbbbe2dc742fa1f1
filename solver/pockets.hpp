#pragma once

#include "mesh/curve.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// A place in an outline that stays full when the body is lifted from a
/// liquid: every way out of it first rises to the lip.
struct Pocket {
  double level = 0;  ///< height of the lip over which it runs out [m]
  double depth = 0;  ///< from the lip down to the lowest point [m]
  double width = 0;  ///< extent along x [m]
  double mouth = 0;  ///< free width just below the lip, all openings [m]
  double area = 0;   ///< in the section [m2]
  mesh::Point deepest = mesh::Point::Zero();  ///< its lowest point [m]
  std::string face;                           ///< at the lowest point
};

/// The pockets of a body that open upwards, left to right. Each is as full as
/// it can be: pockets within a larger one count as that one. Holes of an
/// outline are passed over: what looks closed in a section is open at the
/// ends that are not drawn.
std::vector<Pocket> pockets(const mesh::Outline& outline);

/// The pockets that open downwards, in which gas stays under the liquid: those
/// of the body upside down. `level` is the height of the lip, `deepest` the
/// highest point, above it.
std::vector<Pocket> pockets_below(const mesh::Outline& outline);

}  // namespace thinspot::solver
