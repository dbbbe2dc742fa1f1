#pragma once

#include "mesh/curve.hpp"
#include "solver/model.hpp"

#include <vector>

namespace thinspot::tests {

/// A straight or circular piece of the liquid's boundary, exact: it lies on a
/// curve of a solid or of the tank. Of the mesh only this is taken: which
/// curves meet the liquid, from where to where.
struct Border {
  mesh::Curve line;    ///< walked with the liquid on the left [m]
  int solid = -1;      ///< index into Section::solids; -1: tank, level, axis
  int loop = 0;        ///< of the solid's outline
  int curve = 0;       ///< of that loop
  double t_from = 0;   ///< fraction of that curve where the piece begins
  double t_to = 0;     ///< and ends; smaller on solids
  int electrode = -1;  ///< index into Electrodes::each; -1: carries no current
};

/// The whole boundary, in closed chains one after the other.
std::vector<Border> liquid_borders(const solver::Model& model);

/// A place on a solid's outline.
struct Place {
  int solid = 0, loop = 0, curve = 0;
  double t = 0;
};

/// Cuts the border that holds the place in two there; nothing happens where an
/// end is there already.
void cut_at(std::vector<Border>& borders, const Place& place);

}  // namespace thinspot::tests
