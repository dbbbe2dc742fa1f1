#include "mesh/mesh.hpp"

#include "mesh/errors.hpp"
#include "mesh/jacobian.hpp"
#include "mesh/millimetres.hpp"

#include <Eigen/LU>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <map>

namespace thinspot::mesh {

namespace {

double longest_edge(const Mesh& mesh, Eigen::Index t) {
  double longest = 0;
  for (Eigen::Index k = 0; k < 3; ++k)
    longest = std::max(longest, (mesh.nodes.col(mesh.triangles(k, t)) -
                                 mesh.nodes.col(mesh.triangles((k + 1) % 3, t)))
                                    .norm());
  return longest;
}

/// The liquid lies on one side of a solid's curve, so that all edges on it run
/// the same way; where some run back, the mesher went to and fro on it (seen
/// beside the sharp corners of a foil) and the triangles there lie on top of
/// each other.
void check_one_way(const Mesh& mesh) {
  std::map<std::array<int, 3>, bool> forward;
  for (const BoundaryEdge& e : mesh.boundary) {
    if (e.owner < 0) continue;  // a disc has liquid on both sides
    const bool here = e.t_to > e.t_from;
    const auto [known, is_new] =
        forward.try_emplace({e.owner, e.loop, e.curve}, here);
    if (known->second == here && e.t_to != e.t_from) continue;
    const Point at = mesh.nodes.col(e.nodes[0]);
    throw NoResultError(
        fmt::format("the mesh's boundary folds near {}", in_mm(at)));
  }
}

}  // namespace

std::pair<double, double> jacobian_range(const Mesh& mesh, int triangle) {
  static constexpr std::array<std::array<double, 2>, 6> nodes{
      {{0, 0}, {1, 0}, {0, 1}, {0.5, 0}, {0.5, 0.5}, {0, 0.5}}};
  double least = std::numeric_limits<double>::infinity(), largest = -least;
  for (const auto& [x, y] : nodes) {
    const double z = 1 - x - y;
    // Gradients of the six P2 shape functions, corners then middles.
    Eigen::Matrix<double, 6, 2> gradient;
    gradient << 1 - 4 * z, 1 - 4 * z, 4 * x - 1, 0, 0, 4 * y - 1, 4 * (z - x),
        -4 * x, 4 * y, 4 * x, -4 * y, 4 * (z - y);
    Eigen::Matrix2d jacobian = Eigen::Matrix2d::Zero();
    for (Eigen::Index k = 0; k < 6; ++k)
      jacobian += mesh.nodes.col(mesh.triangles(k, triangle)) * gradient.row(k);
    least = std::min(least, jacobian.determinant());
    largest = std::max(largest, jacobian.determinant());
  }
  return {least, largest};
}

void check_mesh(const Mesh& mesh) {
  const auto nodes = static_cast<int>(mesh.nodes.cols());
  if (!mesh.nodes.allFinite())
    throw NoResultError("a node of the mesh is not finite");
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    if (mesh.triangles.col(t).minCoeff() < 0 ||
        mesh.triangles.col(t).maxCoeff() >= nodes)
      throw NoResultError(
          fmt::format("triangle {} of the mesh has a node out of range", t));
    const auto [least, largest] = jacobian_range(mesh, static_cast<int>(t));
    // Against the triangle's own size: flat or folded, at any scale.
    const double longest = longest_edge(mesh, t);
    if (!(least > kFlat * longest * longest) || !(least > 1e-3 * largest))
      throw NoResultError(
          fmt::format("triangle {} of the mesh is flat or folded near {}", t,
                      in_mm(mesh.nodes.col(mesh.triangles(0, t)))));
  }
  for (const BoundaryEdge& e : mesh.boundary) {
    const auto corners = mesh.triangles.col(e.triangle);
    for (int node : e.nodes)
      if (std::find(corners.begin(), corners.end(), node) == corners.end())
        throw NoResultError("a boundary edge is not of its triangle near " +
                            in_mm(mesh.nodes.col(corners(0))));
  }
  check_one_way(mesh);
}

}  // namespace thinspot::mesh
