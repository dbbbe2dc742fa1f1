#include "mesh/generate.hpp"

#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/gmsh_session.hpp"
#include "mesh/liquid.hpp"
#include "mesh/refine.hpp"
#include "mesh/repair.hpp"
#include "mesh/size_field.hpp"
#include "mesh/triangulation.hpp"

#include <fmt/format.h>
#include <gmsh.h>

#include <exception>
#include <string>

namespace thinspot::mesh {

namespace {

/// Beyond this many triangles Gmsh takes longer than anybody waits (measured:
/// 800,000 in 34 s).
constexpr double kMostTriangles = 400'000;

/// Frontal and Delaunay, which now and then leave a triangle without area
/// beside a sharp corner with strong grading; a little finer they do not. Last
/// the one that never does, twenty times slower.
struct Attempt {
  int algorithm;
  double share;  ///< of the wanted sizes
};
constexpr Attempt attempts[] = {{6, 1}, {6, 0.9}, {5, 1}, {5, 0.85}, {1, 1}};

/// Triangles that the size field asks for, by halving boxes until each is
/// smaller than the wanted edge; stops counting past `most`.
double expected_triangles(const SizeField& size, const Box& box, double most) {
  const double wanted = size(box.centre());
  const Point extent = box.size();
  // An equilateral triangle of edge h covers sqrt(3)/4 h^2.
  if (extent.maxCoeff() <= 2 * wanted)
    return extent.prod() / (0.433 * wanted * wanted);
  const bool wide = extent.x() > extent.y();
  Box first = box, second = box;
  (wide ? first.high.x() : first.high.y()) =
      wide ? box.centre().x() : box.centre().y();
  (wide ? second.low.x() : second.low.y()) =
      wide ? box.centre().x() : box.centre().y();
  const double count = expected_triangles(size, first, most);
  if (count > most) return count;
  return count + expected_triangles(size, second, most - count);
}

RawTriangles mesh_here(const Liquid& liquid, int algorithm, double scale) {
  gmsh::option::setNumber("Mesh.Algorithm", algorithm);
  gmsh::model::mesh::clear();
  gmsh::model::mesh::generate(2);
  RawTriangles raw;
  std::vector<std::size_t> tags;
  std::vector<double> xyz, parameters;
  gmsh::model::mesh::getNodes(tags, xyz, parameters, -1, -1, false, false);
  for (std::size_t k = 0; k < tags.size(); ++k)
    raw.nodes[tags[k]] = Point(xyz[3 * k], xyz[3 * k + 1]) / scale;
  for (int surface : liquid.surfaces) {
    std::vector<std::size_t> elements, corners;
    gmsh::model::mesh::getElementsByType(2, elements, corners, surface);
    raw.corners.insert(raw.corners.end(), corners.begin(), corners.end());
  }
  for (const LiquidCurve& c : liquid.curves) {
    std::vector<std::size_t> elements, ends;
    gmsh::model::mesh::getElementsByType(1, elements, ends, c.tag);
    for (std::size_t k = 0; k + 1 < ends.size(); k += 2)
      raw.edges.push_back({ends[k], ends[k + 1], c.owner, c.loop, c.curve});
  }
  return raw;
}

std::string packed(const RawTriangles& raw) {
  Bytes bytes;
  bytes.put(raw.nodes.size());
  for (const auto& [tag, p] : raw.nodes) {
    bytes.put(tag);
    bytes.put(p.x());
    bytes.put(p.y());
  }
  bytes.put(raw.corners.size());
  for (std::size_t tag : raw.corners) bytes.put(tag);
  bytes.put(raw.edges.size());
  for (const RawTriangles::Edge& e : raw.edges) bytes.put(e);
  return bytes.text();
}

RawTriangles unpacked(Bytes bytes) {
  RawTriangles raw;
  for (auto n = bytes.take<std::size_t>(); n > 0; --n) {
    const auto tag = bytes.take<std::size_t>();
    const auto x = bytes.take<double>();
    raw.nodes[tag] = {x, bytes.take<double>()};
  }
  for (auto n = bytes.take<std::size_t>(); n > 0; --n)
    raw.corners.push_back(bytes.take<std::size_t>());
  for (auto n = bytes.take<std::size_t>(); n > 0; --n)
    raw.edges.push_back(bytes.take<RawTriangles::Edge>());
  return raw;
}

/// In a child process: where Gmsh finds no mesh it throws out of a parallel
/// region, which ends a program on the spot.
RawTriangles mesh_once(const Liquid& liquid, int algorithm, double scale) {
  constexpr unsigned seconds = 60;
  return unpacked(Bytes(
      in_child([&] { return packed(mesh_here(liquid, algorithm, scale)); },
               "the mesher", seconds)));
}

/// Corners of a part that are more than a drawing's kink in a smooth curve.
std::vector<SharpCorner> sharp_corners(const std::vector<CornerPoint>& all) {
  constexpr double bent = 0.05;  // between straight pieces of 9 degrees
  std::vector<SharpCorner> sharp;
  for (const CornerPoint& c : all) {
    const double power = exponent(c) - 1;
    if (!c.part || power > -bent) continue;
    sharp.push_back(
        {c.at, c.angle, power, c.electrode[0] ? c.owner[0] : c.owner[1]});
  }
  return sharp;
}

Mesh mesh_liquid(const Section& section, const Grading& grading) {
  const Liquid liquid = cut_liquid(section);
  const double scale = model_scale(section);
  std::vector<BoundaryPiece> pieces;
  for (const LiquidCurve& c : liquid.curves) pieces.push_back(c.piece);
  const Box box = bounding_box(section.liquid_bounds);
  const SizeField size(pieces, liquid.corners, box.size().maxCoeff(), grading);
  const double expected = expected_triangles(size, box, kMostTriangles);
  if (expected > kMostTriangles)
    throw NoResultError(fmt::format(
        "the section would need more than {:.0f} triangles: its finest "
        "features and gaps are too small for its tank; draw a smaller tank, "
        "wider gaps or larger radii",
        kMostTriangles));
  double share = 1;
  gmsh::model::mesh::setSizeCallback(
      [&size, &share, scale](int, int, double x, double y, double) {
        return share * scale * size(Point(x, y) / scale);
      });
  std::string trouble;
  for (const Attempt& attempt : attempts) {
    try {
      share = attempt.share;
      RawTriangles raw = mesh_once(liquid, attempt.algorithm, scale);
      swap_flat_triangles(raw);  // what it cannot mend, check_mesh finds
      Mesh mesh = build_mesh(section, raw);
      mesh.notes = liquid.notes;
      mesh.sharp = sharp_corners(liquid.corners);
      longest_edge_first(mesh);
      check_mesh(mesh);
      return mesh;
    } catch (const std::exception& error) {
      trouble = error.what();
    }
  }
  throw NoResultError("no sound mesh of this section: " + trouble);
}

}  // namespace

Mesh generate(const Section& section, const Grading& grading) {
  return in_session([&] { return mesh_liquid(section, grading); });
}

}  // namespace thinspot::mesh
