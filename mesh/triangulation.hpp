#pragma once

#include "mesh/mesh.hpp"

#include <cstddef>
#include <unordered_map>
#include <vector>

namespace thinspot::mesh {

/// Straight triangles as a mesh generator gives them.
struct RawTriangles {
  std::unordered_map<std::size_t, Point> nodes;  ///< by tag [m]
  std::vector<std::size_t> corners;              ///< tags, three a triangle
  struct Edge {
    std::size_t from, to;
    int owner, loop, curve;
  };
  std::vector<Edge> edges;  ///< of the boundary
};

/// Makes P2 triangles: corners of the boundary moved onto their true curve,
/// middle nodes on it too, except where that would fold a flat triangle.
Mesh build_mesh(const Section& section, const RawTriangles& raw);

/// Middle nodes of boundary edges on arcs go onto the arc, in the order of the
/// edges; one that would fold its triangle stays on the chord, as do those of
/// straight curves.
void bend_edges(const Section& section, Mesh& mesh);

}  // namespace thinspot::mesh
