#include "mesh/generate.hpp"

#include "mesh/errors.hpp"
#include "mesh/generate_side.hpp"
#include "mesh/gmsh_triangles.hpp"
#include "mesh/liquid.hpp"
#include "mesh/module.hpp"
#include "mesh/refine.hpp"
#include "mesh/repair.hpp"
#include "mesh/size_field.hpp"
#include "mesh/triangulation.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <set>
#include <string>

namespace thinspot::mesh {

namespace {

/// Beyond this many triangles Gmsh takes longer than anybody waits (measured:
/// 800,000 in 34 s).
constexpr double kMostTriangles = 400'000;

/// Delaunay, the quickest, and frontal, which now and then leave a triangle
/// without area beside a sharp corner with strong grading; a little finer they
/// do not. Last the one that never does, twenty times slower.
constexpr Attempt attempts[] = {{5, 1}, {5, 0.9}, {6, 1}, {6, 0.85}, {1, 1}};

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

/// Leaves out what lies on the other side of the discs.
void keep_side(const Section& section, DiscSide side, Liquid& liquid) {
  const auto turns = [&](int owner) {
    return std::any_of(
        section.discs.begin(), section.discs.end(),
        [&](const auto& d) { return static_cast<int>(d.solid) == owner; });
  };
  std::set<int> inside;
  for (const LiquidCurve& c : liquid.curves)
    if (turns(c.owner)) inside.insert(c.region);
  const bool wanted = side == DiscSide::inside;
  std::erase_if(liquid.curves, [&](const LiquidCurve& c) {
    return inside.contains(c.region) != wanted;
  });
  std::erase_if(liquid.corners, [&](const CornerPoint& c) {
    return (turns(c.owner[0]) || turns(c.owner[1])) != wanted;
  });
}

Mesh mesh_of(const Section& section, const Grading& grading,
             const Liquid& liquid) {
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
  std::string trouble;
  for (const Attempt& attempt : attempts) {
    try {
      RawTriangles raw = gmsh_triangles(liquid, size, attempt);
      swap_flat_triangles(raw);  // what it cannot mend, check_mesh finds
      Mesh mesh = build_mesh(section, raw);
      mesh.notes = liquid.notes;
      mesh.sharp = sharp_corners(liquid.corners);
      longest_edge_first(mesh);
      check_mesh(mesh);
      return mesh;
    } catch (const ModuleError&) {
      throw;
    } catch (const std::exception& error) {
      trouble = error.what();
    }
  }
  throw NoResultError("no sound mesh of this section: " + trouble);
}

}  // namespace

Mesh generate(const Section& section, const Grading& grading) {
  return mesh_of(section, grading, cut_liquid(section));
}

Mesh generate_side(const Section& section, const Grading& grading,
                   DiscSide side) {
  Liquid liquid = cut_liquid(section);
  keep_side(section, side, liquid);
  return mesh_of(section, grading, liquid);
}

}  // namespace thinspot::mesh
