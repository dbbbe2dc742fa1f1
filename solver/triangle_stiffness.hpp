#pragma once

#include "mesh/mesh.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

using TriangleNodes = Eigen::Matrix<double, 2, 6>;
using TriangleStiffness = Eigen::Matrix<double, 6, 6>;

/// Places of a triangle's nodes [m].
TriangleNodes nodes_of(const mesh::Mesh& mesh, Eigen::Index triangle);

/// What one triangle adds to the stiffness of its nodes
/// [1 planar, m axisymmetric].
TriangleStiffness triangle_stiffness(const mesh::Mesh& mesh,
                                     Eigen::Index triangle);

}  // namespace thinspot::solver
