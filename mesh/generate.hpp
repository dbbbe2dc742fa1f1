#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"

#include <vector>

namespace thinspot::mesh {

/// What the mesh must resolve besides the geometry.
struct Grading {
  /// Smallest product of conductivity and polarization resistance of each
  /// solid [m]; 0, or left out, where it has a fixed potential.
  std::vector<double> polarization_length = {};
  /// Relative error aimed at for least, mean and largest current density.
  double tolerance = 1e-3;
  /// Over which extremes are averaged [m].
  double averaging_length = 1e-4;
};

/// Cuts the solids from the liquid (mesh/liquid.hpp) and has Gmsh mesh what is
/// left, graded to small radii, sharp corners and narrow gaps.
/// Regions with fewer than two electrodes are dropped, with a note.
/// @throws InputError where no region joins the part and an anode.
/// @throws NoResultError where Gmsh makes no sound mesh by any algorithm.
Mesh generate(const Section& section, const Grading& grading);

}  // namespace thinspot::mesh
