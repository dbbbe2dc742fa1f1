#include "solver/mesh_rows.hpp"

#include "solver/triangle_stiffness.hpp"

#include <algorithm>
#include <cstdint>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;

std::size_t at(Index k) { return static_cast<std::size_t>(k); }

/// Bits of a number, a nothing before each.
std::uint64_t spread(std::uint64_t bits) {
  bits = (bits | (bits << 16)) & 0x0000ffff0000ffffu;
  bits = (bits | (bits << 8)) & 0x00ff00ff00ff00ffu;
  bits = (bits | (bits << 4)) & 0x0f0f0f0f0f0f0f0fu;
  bits = (bits | (bits << 2)) & 0x3333333333333333u;
  return (bits | (bits << 1)) & 0x5555555555555555u;
}

/// Nodes along a curve that fills the plane in squares of squares, which keeps
/// what is close there close in memory however fine a mesh is where: 32 bits
/// tell 1e-11 m in a metre apart.
std::vector<int> along_squares(const mesh::Mesh& mesh) {
  const Eigen::Vector2d low = mesh.nodes.rowwise().minCoeff();
  const double size =
      (mesh.nodes.rowwise().maxCoeff() - low).maxCoeff() * (1 + 1e-9);
  constexpr double steps = 4294967296.0;
  std::vector<std::pair<std::uint64_t, int>> order;
  order.reserve(at(mesh.nodes.cols()));
  for (Index k = 0; k < mesh.nodes.cols(); ++k) {
    const Eigen::Vector2d p = (mesh.nodes.col(k) - low) * (steps / size);
    order.emplace_back(spread(static_cast<std::uint64_t>(p.x())) |
                           (spread(static_cast<std::uint64_t>(p.y())) << 1),
                       static_cast<int>(k));
  }
  std::sort(order.begin(), order.end());
  std::vector<int> nodes;
  nodes.reserve(order.size());
  for (const auto& [place, node] : order) nodes.push_back(node);
  return nodes;
}

/// First those that are to be, then the others along the curve.
std::vector<int> ordered(const mesh::Mesh& mesh,
                         const std::vector<int>& first) {
  std::vector<int> nodes = first;
  nodes.reserve(at(mesh.nodes.cols()));
  std::vector<bool> is_first(at(mesh.nodes.cols()), false);
  for (int node : first) is_first[at(node)] = true;
  for (int node : along_squares(mesh))
    if (!is_first[at(node)]) nodes.push_back(node);
  return nodes;
}

Corners corners_of(const mesh::Mesh& mesh, const std::vector<int>& node,
                   const std::vector<int>& place) {
  std::vector<int> number(node.size(), -1);  // of places
  for (Index t = 0; t < mesh.triangles.cols(); ++t)
    for (Index k = 0; k < 3; ++k)
      number[at(place[at(mesh.triangles(k, t))])] = 0;
  Corners corners;
  for (int& n : number)
    if (n == 0) n = corners.count++;
  corners.of.resize(node.size());
  for (Index t = 0; t < mesh.triangles.cols(); ++t)
    for (Index k = 0; k < 3; ++k) {
      const int from = place[at(mesh.triangles(k, t))],
                to = place[at(mesh.triangles((k + 1) % 3, t))],
                middle = place[at(mesh.triangles(k + 3, t))];
      corners.of[at(from)] = {number[at(from)], number[at(from)]};
      // The same from both sides of the edge.
      corners.of[at(middle)] = {number[at(std::min(from, to))],
                                number[at(std::max(from, to))]};
    }
  return corners;
}

SymmetricRows assembled(const mesh::Mesh& mesh, const std::vector<int>& place) {
  const auto of = [&](Index k, Index t) {
    return place[at(mesh.triangles(k, t))];
  };
  const Index triangles = mesh.triangles.cols();
  SymmetricRows rows(static_cast<int>(place.size()), [&](auto use) {
    for (Index t = 0; t < triangles; ++t)
      for (Index j = 0; j < 6; ++j)
        for (Index k = 0; k < j; ++k) use(of(j, t), of(k, t));
  });
  for (Index t = 0; t < triangles; ++t) {
    const TriangleStiffness a = triangle_stiffness(mesh, t);
    for (Index j = 0; j < 6; ++j)
      for (Index k = 0; k <= j; ++k) rows.add(of(j, t), of(k, t), a(j, k));
  }
  return rows;
}

}  // namespace

MeshRows mesh_rows(const mesh::Mesh& mesh, const std::vector<int>& first) {
  MeshRows rows;
  rows.node = ordered(mesh, first);
  std::vector<int> place(rows.node.size());
  for (std::size_t k = 0; k < place.size(); ++k)
    place[at(rows.node[k])] = static_cast<int>(k);
  rows.stiffness =
      std::make_shared<const SymmetricRows>(assembled(mesh, place));
  rows.corners = corners_of(mesh, rows.node, place);
  return rows;
}

}  // namespace thinspot::solver
