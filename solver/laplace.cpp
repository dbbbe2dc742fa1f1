#include "solver/laplace.hpp"

#include "solver/element.hpp"
#include "solver/triangle_stiffness.hpp"

#include <Eigen/Dense>

#include <array>
#include <numbers>
#include <vector>

namespace thinspot::solver {

SparseMatrix assemble_stiffness(const mesh::Mesh& mesh) {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(static_cast<std::size_t>(36 * mesh.triangles.cols()));
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const auto a = triangle_stiffness(mesh, t);
    for (Eigen::Index j = 0; j < 6; ++j)
      for (Eigen::Index k = 0; k < 6; ++k)
        entries.emplace_back(mesh.triangles(j, t), mesh.triangles(k, t),
                             a(j, k));
  }
  const Eigen::Index n = mesh.nodes.cols();
  SparseMatrix stiffness(n, n);
  stiffness.setFromTriplets(entries.begin(), entries.end());
  return stiffness;
}

Eigen::Matrix3d edge_mass(const mesh::Mesh& mesh,
                          const mesh::BoundaryEdge& edge) {
  Eigen::Matrix<double, 2, 3> p;
  for (std::size_t k = 0; k < 3; ++k)
    p.col(static_cast<Eigen::Index>(k)) = mesh.nodes.col(edge.nodes[k]);
  Eigen::Matrix3d mass = Eigen::Matrix3d::Zero();
  for (const EdgePoint& q : gauss_rule()) {
    const Eigen::Vector3d n = edge_functions(q.t);
    double weight = q.weight * (p * edge_derivatives(q.t)).norm();
    if (mesh.cut == mesh::Cut::axisymmetric)
      weight *= 2 * std::numbers::pi * p.row(0).dot(n);
    mass.noalias() += weight * n * n.transpose();
  }
  return mass;
}

Eigen::Matrix2Xd nodal_gradient(const mesh::Mesh& mesh,
                                const Eigen::VectorXd& field) {
  static constexpr std::array<std::array<double, 2>, 6> places{
      {{0, 0}, {1, 0}, {0, 1}, {0.5, 0}, {0.5, 0.5}, {0, 0.5}}};
  Eigen::Matrix2Xd sum = Eigen::Matrix2Xd::Zero(2, mesh.nodes.cols());
  Eigen::VectorXd weights = Eigen::VectorXd::Zero(mesh.nodes.cols());
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const TriangleNodes p = nodes_of(mesh, t);
    Eigen::Matrix<double, 6, 1> values;
    for (Eigen::Index k = 0; k < 6; ++k)
      values(k) = field(mesh.triangles(k, t));
    for (std::size_t k = 0; k < 6; ++k) {
      const Eigen::Matrix<double, 6, 2> g =
          shape_gradients(places[k][0], places[k][1]);
      const Eigen::Matrix2d jacobian = p * g;
      const double area = jacobian.determinant();
      const int node = mesh.triangles(static_cast<Eigen::Index>(k), t);
      sum.col(node) +=
          area * (values.transpose() * g * jacobian.inverse()).transpose();
      weights(node) += area;
    }
  }
  return sum.array().rowwise() / weights.transpose().array();
}

}  // namespace thinspot::solver
