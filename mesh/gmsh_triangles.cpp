#include "mesh/gmsh_triangles.hpp"

#include <utility>

namespace thinspot::mesh {

RawTriangles gmsh_triangles(const Liquid& liquid, const SizeField& size,
                            const Attempt& attempt) {
  std::vector<MeshPiece> pieces;
  for (const LiquidCurve& c : liquid.curves)
    pieces.push_back({c.piece.curve.from, c.piece.curve.to, c.piece.curve.bulge,
                      c.piece.start_vertex, c.piece.end_vertex, c.region});
  const MeshAnswer answer =
      ask_for_triangles({std::move(pieces), size, attempt});
  RawTriangles raw;
  for (std::size_t k = 0; k < answer.tags.size(); ++k)
    raw.nodes[answer.tags[k]] = Point(answer.xyz[3 * k], answer.xyz[3 * k + 1]);
  raw.corners = answer.corners;
  for (const MeshAnswer::Edge& e : answer.edges) {
    const LiquidCurve& c = liquid.curves[e.piece];
    raw.edges.push_back({e.from, e.to, c.owner, c.loop, c.curve});
  }
  return raw;
}

}  // namespace thinspot::mesh
