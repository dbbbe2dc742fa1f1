#include "mesh/triangulation.hpp"

#include "mesh/errors.hpp"
#include "mesh/jacobian.hpp"
#include "mesh/liquid.hpp"
#include "mesh/millimetres.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace thinspot::mesh {

namespace {

using EdgeKey = std::pair<int, int>;

EdgeKey edge_key(int a, int b) { return {std::min(a, b), std::max(a, b)}; }

/// @param curve  that the edge lies on
[[noreturn]] void edge_is_lost(const Curve& curve) {
  throw NoResultError(
      "an edge of the mesh's boundary belongs to no triangle, on the curve "
      "from " +
      in_mm(curve.from) + " to " + in_mm(curve.to));
}

}  // namespace

void bend_edges(const Section& section, Mesh& mesh) {
  // From straight edges on, every step of the way is a sound mesh.
  for (const BoundaryEdge& e : mesh.boundary)
    mesh.nodes.col(e.nodes[2]) =
        0.5 * (mesh.nodes.col(e.nodes[0]) + mesh.nodes.col(e.nodes[1]));
  for (const BoundaryEdge& e : mesh.boundary) {
    const Curve& c = curve_of(section, e.owner, e.loop, e.curve);
    if (!is_arc(c)) continue;
    auto middle = mesh.nodes.col(e.nodes[2]);
    const Point straight = middle;
    middle = point_at(c, 0.5 * (e.t_from + e.t_to));
    const auto [least, largest] = jacobian_range(mesh, e.triangle);
    if (least < kLeastJacobianRatio * largest) middle = straight;
  }
}

Mesh build_mesh(const Section& section, const RawTriangles& raw) {
  Mesh mesh;
  mesh.cut = section.cut;
  const auto triangles = static_cast<Eigen::Index>(raw.corners.size() / 3);
  if (triangles == 0) throw NoResultError("the mesh has no triangles");
  mesh.triangles.resize(6, triangles);
  std::unordered_map<std::size_t, int> index;
  std::vector<Point> nodes;
  for (Eigen::Index t = 0; t < triangles; ++t)
    for (Eigen::Index k = 0; k < 3; ++k) {
      const std::size_t tag = raw.corners[static_cast<std::size_t>(3 * t + k)];
      const auto [entry, is_new] =
          index.try_emplace(tag, static_cast<int>(nodes.size()));
      if (is_new) nodes.push_back(raw.nodes.at(tag));
      mesh.triangles(k, t) = entry->second;
    }
  // Generators may turn a surface over: corners counter-clockwise from here.
  for (Eigen::Index t = 0; t < triangles; ++t) {
    const auto corner = [&](int k) {
      return nodes[static_cast<std::size_t>(mesh.triangles(k, t))];
    };
    const Point a = corner(1) - corner(0), b = corner(2) - corner(0);
    if (a.x() * b.y() - a.y() * b.x() < 0)
      std::swap(mesh.triangles(1, t), mesh.triangles(2, t));
  }
  struct Side {
    int middle, triangle, from, to;
  };
  std::map<EdgeKey, Side> sides;
  // Boundary nodes move onto their curves before middles are taken.
  for (const auto& e : raw.edges)
    for (std::size_t tag : {e.from, e.to}) {
      const Curve& c = curve_of(section, e.owner, e.loop, e.curve);
      const auto found = index.find(tag);
      if (found == index.end()) edge_is_lost(c);
      Point& p = nodes[static_cast<std::size_t>(found->second)];
      p = point_at(c, nearest(c, p).t);
    }
  for (Eigen::Index t = 0; t < triangles; ++t)
    for (Eigen::Index k = 0; k < 3; ++k) {
      const int a = mesh.triangles(k, t), b = mesh.triangles((k + 1) % 3, t);
      const auto [entry, is_new] = sides.try_emplace(
          edge_key(a, b),
          Side{static_cast<int>(nodes.size()), static_cast<int>(t), a, b});
      if (is_new)
        nodes.push_back(0.5 * (nodes[static_cast<std::size_t>(a)] +
                               nodes[static_cast<std::size_t>(b)]));
      mesh.triangles(3 + k, t) = entry->second.middle;
    }
  mesh.nodes.resize(2, static_cast<Eigen::Index>(nodes.size()));
  for (std::size_t k = 0; k < nodes.size(); ++k)
    mesh.nodes.col(static_cast<Eigen::Index>(k)) = nodes[k];
  for (const auto& e : raw.edges) {
    const auto found = sides.find(edge_key(index.at(e.from), index.at(e.to)));
    if (found == sides.end())
      edge_is_lost(curve_of(section, e.owner, e.loop, e.curve));
    const Side& side = found->second;
    const Curve& c = curve_of(section, e.owner, e.loop, e.curve);
    mesh.boundary.push_back({{side.from, side.to, side.middle},
                             side.triangle,
                             e.owner,
                             e.loop,
                             e.curve,
                             nearest(c, mesh.nodes.col(side.from)).t,
                             nearest(c, mesh.nodes.col(side.to)).t,
                             c.masked});
  }
  bend_edges(section, mesh);
  return mesh;
}

}  // namespace thinspot::mesh
