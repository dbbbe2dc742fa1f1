#pragma once

#include "mesh/mesh.hpp"

#include <utility>

namespace thinspot::mesh {

/// Height over longest edge of a triangle that is no triangle any more: its
/// stiffness would drown that of all others.
inline constexpr double kFlat = 1e-4;

/// A boundary node goes to the chord instead of its curve where the curve would
/// bring the least Jacobian of a triangle below this share of the largest.
inline constexpr double kLeastJacobianRatio = 0.15;

/// Smallest and largest determinant of the map from the reference triangle
/// (0,0) (1,0) (0,1), taken at the six nodes of the triangle [m2].
std::pair<double, double> jacobian_range(const Mesh& mesh, int triangle);

}  // namespace thinspot::mesh
