#include "mesh/refine.hpp"

#include "mesh/errors.hpp"
#include "mesh/jacobian.hpp"
#include "mesh/liquid.hpp"
#include "mesh/refine_edges.hpp"
#include "mesh/triangulation.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <vector>

namespace thinspot::mesh {

namespace {

using Corners = decltype(Mesh::triangles);

std::size_t at(int node) { return static_cast<std::size_t>(node); }

/// Places for the nodes of a triangle and of its children: its own six, the
/// middles of the halves of its edges (beside corners 0 and 1, 1 and 2, 2 and
/// 0), and of the edges across it, from node 3 to nodes 2, 5 and 4.
using Places = std::array<int, 15>;

struct Child {
  std::array<int, 6> places;
  double share;  ///< of the area of its parent, all edges straight
};

// The first cut goes from corner 2 to the middle of the first edge; the child
// on either side has the parent's edge for its first and may be cut again.
constexpr Child kWhole{{0, 1, 2, 3, 4, 5}, 1};
constexpr Child kLeft{{2, 0, 3, 5, 6, 12}, 0.5};
constexpr Child kLeftUpper{{3, 2, 5, 12, 10, 13}, 0.25};
constexpr Child kLeftLower{{0, 3, 5, 6, 13, 11}, 0.25};
constexpr Child kRight{{1, 2, 3, 4, 12, 7}, 0.5};
constexpr Child kRightLower{{3, 1, 4, 7, 8, 14}, 0.25};
constexpr Child kRightUpper{{2, 3, 4, 12, 14, 9}, 0.25};

/// Children by pattern of halved edges; 2, 4 and 6 do not come up, as the first
/// edge is halved wherever another is.
std::span<const Child> children(unsigned pattern) {
  static constexpr Child none[] = {kWhole};
  static constexpr Child first[] = {kLeft, kRight};
  static constexpr Child right[] = {kLeft, kRightLower, kRightUpper};
  static constexpr Child left[] = {kLeftUpper, kLeftLower, kRight};
  static constexpr Child all[] = {kLeftUpper, kLeftLower, kRightLower,
                                  kRightUpper};
  switch (pattern) {
    case 0: return none;
    case 1: return first;
    case 3: return right;
    case 5: return left;
    case 7: return all;
    default:
      throw std::logic_error("an edge is halved before its triangle's first");
  }
}

double twice_area(const Point& a, const Point& b, const Point& c) {
  return (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
}

/// True where a child of the triangle, its edges straight, has lost so much of
/// the area it has with the parent's middles on their chords that a bend of the
/// same amount would be refused.
bool flattened(const Eigen::Matrix2Xd& nodes, const Mesh& mesh, int triangle,
               unsigned pattern) {
  const auto node = [&](int k) -> Point {
    return nodes.col(mesh.triangles(k, triangle));
  };
  const double whole = twice_area(node(0), node(1), node(2));
  for (const Child& child : children(pattern)) {
    const auto& [a, b, c, ab, bc, ca] = child.places;
    if (!(twice_area(node(a), node(b), node(c)) >=
          kLeastJacobianRatio * child.share * whole))
      return true;
  }
  return false;
}

/// Middles of boundary edges that become corners move onto their curve, also
/// those that had been left on the chord.
void place_corners(const Section& section, const Mesh& mesh,
                   const HalvedEdges& halved, Eigen::Matrix2Xd& nodes) {
  // From the chords on, where no child can be flat, one step after the other.
  for (const BoundaryEdge& e : mesh.boundary)
    if (halved[e.nodes[2]])
      nodes.col(e.nodes[2]) =
          0.5 * (nodes.col(e.nodes[0]) + nodes.col(e.nodes[1]));
  for (const BoundaryEdge& e : mesh.boundary) {
    if (!halved[e.nodes[2]]) continue;
    auto corner = nodes.col(e.nodes[2]);
    const Point on_chord = corner;
    corner = point_at(curve_of(section, e.owner, e.loop, e.curve),
                      0.5 * (e.t_from + e.t_to));
    if (flattened(nodes, mesh, e.triangle, halved.pattern(mesh, e.triangle)))
      corner = on_chord;
  }
}

/// Numbers and places new nodes in the order of the triangles, so that what is
/// near in the mesh is near in memory.
struct Cutter {
  Eigen::Matrix2Xd& nodes;
  HalvedEdges& halved;
  int next;  ///< node not given yet

  int between(int a, int b) {
    nodes.col(next) = 0.5 * (nodes.col(a) + nodes.col(b));
    return next++;
  }

  Places places(const Corners& triangles, Eigen::Index t, unsigned pattern) {
    Places p{};
    for (Eigen::Index k = 0; k < 6; ++k) p[at(int(k))] = triangles(k, t);
    for (int k = 0; k < 3; ++k) {
      if (!(pattern & (1u << k))) continue;
      const int from = p[at(k)], to = p[at((k + 1) % 3)], middle = p[at(3 + k)];
      if (!halved.has_halves(middle)) {
        halved.give_halves(middle, next);
        between(std::min(from, to), middle);
        between(std::max(from, to), middle);
      }
      p[at(6 + 2 * k)] = halved.half_beside(from, to, middle);
      p[at(7 + 2 * k)] = halved.half_beside(to, from, middle);
    }
    if (pattern & 1) p[12] = between(p[3], p[2]);
    if (pattern & 4) p[13] = between(p[3], p[5]);
    if (pattern & 2) p[14] = between(p[3], p[4]);
    return p;
  }
};

/// Which of the new triangles from `first` on has this middle node.
int triangle_of(int middle, const Corners& triangles, int first) {
  for (int t = first; t < triangles.cols(); ++t)
    for (Eigen::Index k = 3; k < 6; ++k)
      if (triangles(k, t) == middle) return t;
  throw std::logic_error("a boundary edge is not of its triangle");
}

std::vector<BoundaryEdge> cut_boundary(const Mesh& mesh,
                                       const HalvedEdges& halved,
                                       const std::vector<int>& first_child,
                                       const Corners& triangles) {
  std::vector<BoundaryEdge> boundary;
  boundary.reserve(2 * mesh.boundary.size());
  const auto add = [&](BoundaryEdge e) {
    e.triangle =
        triangle_of(e.nodes[2], triangles, first_child[at(e.triangle)]);
    boundary.push_back(e);
  };
  for (const BoundaryEdge& e : mesh.boundary) {
    const auto [from, to, middle] = e.nodes;
    if (!halved[middle]) {
      add(e);
      continue;
    }
    BoundaryEdge half = e;
    half.nodes = {from, middle, halved.half_beside(from, to, middle)};
    half.t_to = 0.5 * (e.t_from + e.t_to);
    add(half);
    half.nodes = {middle, to, halved.half_beside(to, from, middle)};
    half.t_from = half.t_to;
    half.t_to = e.t_to;
    add(half);
  }
  return boundary;
}

Mesh cut(const Mesh& mesh, const Section& section, HalvedEdges halved) {
  std::int64_t nodes = mesh.nodes.cols() + 2 * halved.count(),
               triangles = mesh.triangles.cols();
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    // An edge across and a child more for each edge that is halved.
    const unsigned bits = halved.pattern(mesh, t);
    const auto more = (bits & 1) + (bits >> 1 & 1) + (bits >> 2);
    nodes += more;
    triangles += more;
  }
  if (nodes > std::numeric_limits<int>::max())
    throw NoResultError("the refined mesh would have too many nodes");

  // Names all members: one that is added does not compile until it is thought
  // of here.
  const auto& [cut, old_nodes, old_triangles, old_boundary, notes, sharp] =
      mesh;
  Mesh fine{cut, {}, {}, {}, notes, sharp};
  fine.nodes.resize(Eigen::NoChange, nodes);
  fine.nodes.leftCols(old_nodes.cols()) = old_nodes;
  fine.triangles.resize(Eigen::NoChange, triangles);
  place_corners(section, mesh, halved, fine.nodes);
  Cutter cutter{fine.nodes, halved, int(old_nodes.cols())};
  std::vector<int> first_child(at(int(mesh.triangles.cols())));
  int done = 0;
  for (int t = 0; t < int(mesh.triangles.cols()); ++t) {
    first_child[at(t)] = done;
    const unsigned pattern = halved.pattern(mesh, t);
    const Places places = cutter.places(mesh.triangles, t, pattern);
    for (const Child& child : children(pattern)) {
      for (Eigen::Index k = 0; k < 6; ++k)
        fine.triangles(k, done) = places[at(child.places[at(int(k))])];
      ++done;
    }
  }
  fine.boundary = cut_boundary(mesh, halved, first_child, fine.triangles);
  bend_edges(section, fine);
  return fine;
}

}  // namespace

Mesh refined(const Mesh& mesh, const Section& section,
             std::span<const int> marked) {
  if (marked.empty()) return mesh;
  return cut(mesh, section, edges_to_halve(mesh, marked));
}

Mesh refined(const Mesh& mesh, const Section& section) {
  return cut(mesh, section, all_edges(mesh));
}

void longest_edge_first(Mesh& mesh) {
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const Eigen::Matrix<int, 6, 1> old = mesh.triangles.col(t);
    Eigen::Index longest = 0;
    double most = -1;
    for (Eigen::Index k = 0; k < 3; ++k) {
      const double square =
          (mesh.nodes.col(old((k + 1) % 3)) - mesh.nodes.col(old(k)))
              .squaredNorm();
      // Of equal edges both neighbours choose the same.
      if (square > most || (square == most && old(3 + k) < old(3 + longest))) {
        most = square;
        longest = k;
      }
    }
    for (Eigen::Index k = 0; k < 3; ++k) {
      mesh.triangles(k, t) = old((longest + k) % 3);
      mesh.triangles(3 + k, t) = old(3 + (longest + k) % 3);
    }
  }
}

}  // namespace thinspot::mesh
