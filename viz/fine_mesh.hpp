#pragma once

#include "solver/result.hpp"

#include <Eigen/Core>

namespace thinspot::viz {

/// The field on plain triangles small enough to draw: each quadratic triangle
/// cut into equal parts, values by its own shape functions.
struct FineMesh {
  Eigen::Matrix2Xd nodes;  ///< [m]
  Eigen::Matrix3Xi triangles;
  Eigen::VectorXd potential;         ///< [V]
  Eigen::Matrix2Xd current_density;  ///< [A/m2]
};

/// @param wanted  about so many triangles come of it; never fewer than the
/// mesh has, never more than 64 for one.
FineMesh fine_mesh(const solver::Result& result, int wanted = 24'000);

}  // namespace thinspot::viz
