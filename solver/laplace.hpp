#pragma once

#include "mesh/mesh.hpp"

#include <Eigen/Core>
#include <Eigen/SparseCore>

namespace thinspot::solver {

using SparseMatrix = Eigen::SparseMatrix<double>;

/// Stiffness of the Laplace operator at conductivity 1, without boundary
/// terms:
///   A_jk = integral of grad N_j . grad N_k w,   w = 1 planar, 2 pi r
/// axisymmetric. Symmetric, positive semi-definite; constants in the kernel.
/// @returns n x n over the mesh's nodes, both triangles stored
///          [1 planar, m axisymmetric].
SparseMatrix assemble_stiffness(const mesh::Mesh& mesh);

/// Integral of N_j N_k w over one boundary edge, nodes from, to, middle
/// [m planar, m2 axisymmetric].
Eigen::Matrix3d edge_mass(const mesh::Mesh& mesh,
                          const mesh::BoundaryEdge& edge);

/// Gradient of a nodal field at the nodes, averaged over the triangles that
/// meet there, weighted by their area.
Eigen::Matrix2Xd nodal_gradient(const mesh::Mesh& mesh,
                                const Eigen::VectorXd& field);

}  // namespace thinspot::solver
