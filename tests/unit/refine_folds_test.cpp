// Curves that cut far into a triangle, as beside a sharp corner with a tight
// rounding: the true curve where there is room for it, else the chord.
#include "mesh/refine.hpp"
#include "mesh/triangulation.hpp"
#include "mesh_checks.hpp"
#include "mesh_samples.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace thinspot;
using namespace thinspot::mesh;
using namespace thinspot::tests;

namespace {

constexpr double kWidth = 0.04;

/// A triangle on a base whose arc rises into it by this share of its height.
Meshed over_an_arc(double rise) {
  const double height = 0.004, bulge = -rise * height / (kWidth / 2);
  return one_triangle({{{0, 0}, {kWidth, 0}, bulge, ""},
                       {{kWidth, 0}, {kWidth / 2, height}, 0, ""},
                       {{kWidth / 2, height}, {0, 0}, 0, ""}});
}

/// Height of the middle of the base above the chord, over that of the arc.
double lift(const Meshed& m, int middle) {
  const Point top = point_at(m.section.liquid_bounds.loops[0][0], 0.5);
  return m.mesh.nodes(1, middle) / top.y();
}

}  // namespace

TEST_CASE("a corner that a middle had kept on the chord moves to the curve",
          "[refine]") {
  // A parabola that rises by s over the base of a triangle with equal sides and
  // height h has 1 - 2 s/h of the Jacobian at the apex all along the base, and
  // meets the limit of 0.15 at s/h = 0.425. The straight children keep 1 - s/h
  // of their area and meet it at 0.85. (From 1/2 on, the arc leaves the
  // triangle and the drawing is none; what comes of it must be a mesh all the
  // same.)
  struct Row {
    double rise, middle_before, corner;
  };
  const Row row = GENERATE(Row{0.2, 1, 1}, Row{0.42, 1, 1}, Row{0.43, 0, 1},
                           Row{0.48, 0, 1}, Row{0.84, 0, 1}, Row{0.86, 0, 0},
                           Row{1, 0, 0}, Row{-0.4, 1, 1});
  CAPTURE(row.rise);
  Meshed m = over_an_arc(row.rise);
  const int middle = m.mesh.boundary[0].nodes[2];
  CHECK(lift(m, middle) == Approx(row.middle_before).margin(1e-12));
  m.mesh = refined(m.mesh, m.section);
  CHECK(lift(m, middle) == Approx(row.corner).margin(1e-12));
  for (int round = 0; round < 4; ++round) {
    CHECK_NOTHROW(check_mesh(m.mesh));
    m.mesh = refined(m.mesh, m.section);
  }
  if (row.rise > 0.5) return;
  // Near the tips middles may stay on chords of a 32nd of the arc's length,
  // which miss a 32 squared of its rise.
  const double exact = area(m.section.liquid_bounds);
  const double under = area(Outline{{{m.section.liquid_bounds.loops[0][0]}}});
  CHECK(std::abs(mesh_area(m.mesh) - exact) < std::abs(under) / (32 * 32));
}

TEST_CASE("an edge that is not cut straightens where its triangle gets thin",
          "[refine]") {
  // a b c lies above a-b, its longest edge, and has an arc from b to c; a d b
  // hangs below. Halving a-b halves the room above the arc.
  const Point a(0, 0), b(kWidth, 0), c(0.02, 0.03), d(0.02, -0.01);
  const double chord = (c - b).norm(), height = kWidth * c.y() / chord;
  const double bulge = -2 * 0.17 * height / chord;
  Section section;
  section.liquid_bounds.loops = {
      {{b, c, bulge, ""}, {c, a, 0, ""}, {a, d, 0, ""}, {d, b, 0, ""}}};
  RawTriangles raw;
  raw.nodes = {{0, a}, {1, b}, {2, c}, {3, d}};
  raw.corners = {0, 1, 2, 0, 3, 1};
  raw.edges = {{1, 2, kWall, 0, 0},
               {2, 0, kWall, 0, 1},
               {0, 3, kWall, 0, 2},
               {3, 1, kWall, 0, 3}};
  Mesh mesh = build_mesh(section, raw);
  longest_edge_first(mesh);
  const int middle = mesh.boundary[0].nodes[2];
  const Point on_arc = point_at(section.liquid_bounds.loops[0][0], 0.5);
  REQUIRE((mesh.nodes.col(middle) - on_arc).norm() < 1e-15);

  const std::vector<int> below = {1};
  Mesh fine = refined(mesh, section, below);
  CHECK(fine.triangles.cols() == 2 + 4);
  CHECK((fine.nodes.col(middle) - 0.5 * (b + c)).norm() < 1e-15);
  CHECK_NOTHROW(check_mesh(fine));
  // Halved itself, it is a corner with room enough.
  fine = refined(fine, section);
  CHECK((fine.nodes.col(middle) - on_arc).norm() < 1e-15);
  CHECK_NOTHROW(check_mesh(fine));
}
