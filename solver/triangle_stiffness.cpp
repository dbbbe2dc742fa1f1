#include "solver/triangle_stiffness.hpp"

#include "solver/element.hpp"

#include <Eigen/Dense>

#include <numbers>

namespace thinspot::solver {

namespace {

bool is_straight(const TriangleNodes& p) {
  const double size = (p.col(1) - p.col(0)).cwiseAbs().maxCoeff() +
                      (p.col(2) - p.col(0)).cwiseAbs().maxCoeff();
  const double bend = (p.col(3) - 0.5 * (p.col(0) + p.col(1))).norm() +
                      (p.col(4) - 0.5 * (p.col(1) + p.col(2))).norm() +
                      (p.col(5) - 0.5 * (p.col(2) + p.col(0))).norm();
  return bend < 1e-13 * size;
}

}  // namespace

TriangleNodes nodes_of(const mesh::Mesh& mesh, Eigen::Index triangle) {
  TriangleNodes nodes;
  for (Eigen::Index k = 0; k < 6; ++k)
    nodes.col(k) = mesh.nodes.col(mesh.triangles(k, triangle));
  return nodes;
}

TriangleStiffness triangle_stiffness(const mesh::Mesh& mesh,
                                     Eigen::Index triangle) {
  const bool axisymmetric = mesh.cut == mesh::Cut::axisymmetric;
  const TriangleNodes p = nodes_of(mesh, triangle);
  // Straight and planar, the integrand has degree 2.
  const auto rule =
      !axisymmetric && is_straight(p) ? degree_2_rule() : degree_4_rule();
  TriangleStiffness a = TriangleStiffness::Zero();
  for (const TrianglePoint& q : rule) {
    const Eigen::Matrix<double, 6, 2> g = shape_gradients(q.x, q.y);
    const Eigen::Matrix2d jacobian = p * g;
    const Eigen::Matrix<double, 6, 2> d = g * jacobian.inverse();
    double weight = q.weight * jacobian.determinant();
    if (axisymmetric)
      weight *= 2 * std::numbers::pi * p.row(0).dot(shape_functions(q.x, q.y));
    a.noalias() += weight * d * d.transpose();
  }
  return a;
}

}  // namespace thinspot::solver
