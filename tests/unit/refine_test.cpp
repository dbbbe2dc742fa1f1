#include "mesh/refine.hpp"
#include "mesh_checks.hpp"
#include "mesh_samples.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>
#include <set>
#include <stdexcept>

using namespace thinspot;
using namespace thinspot::mesh;
using namespace thinspot::tests;

namespace {

/// Every n-th triangle.
std::vector<int> every(const Mesh& m, int n) {
  std::vector<int> marked;
  for (int t = 0; t < triangles_of(m); t += n) marked.push_back(t);
  return marked;
}

/// Triangles that have this node.
std::vector<int> around(const Mesh& m, int node) {
  std::vector<int> marked;
  for (int t = 0; t < triangles_of(m); ++t)
    if ((m.triangles.col(t).array() == node).any()) marked.push_back(t);
  return marked;
}

double exact_area(const Section& s) {
  double left = area(s.liquid_bounds);
  for (const PlacedSolid& solid : s.solids) left -= area(solid.outline);
  return left;
}

}  // namespace

TEST_CASE("refined meshes conform and keep to the true curves", "[refine]") {
  const Meshed start = GENERATE(from_range(meshed_samples()));
  CAPTURE(start.name);
  const int share = GENERATE(1, 3, 40);
  Mesh m = start.mesh;
  for (int round = 0; round < 3; ++round) {
    const auto marked = every(m, share);
    const int before = triangles_of(m);
    m = share == 1 ? refined(m, start.section)
                   : refined(m, start.section, marked);
    CHECK(triangles_of(m) >= before + 3 * static_cast<int>(marked.size()));
    CHECK_NOTHROW(check_mesh(m));
    check_conforming(m);
    check_on_curves(m, start.section);
  }
  CHECK(m.cut == start.mesh.cut);
}

TEST_CASE("every triangle into four", "[refine]") {
  const Meshed start = meshed_coin();
  const Mesh fine = refined(start.mesh, start.section);
  CHECK(triangles_of(fine) == 4 * triangles_of(start.mesh));
  CHECK(fine.boundary.size() == 2 * start.mesh.boundary.size());
  // A node more for every half of an edge and every edge across: E edges and T
  // triangles of the coarse mesh give 2 E + 3 T.
  const auto edges = sides_by_middle(start.mesh).size();
  CHECK(static_cast<std::size_t>(fine.nodes.cols() - start.mesh.nodes.cols()) ==
        2 * edges + 3 * static_cast<std::size_t>(triangles_of(start.mesh)));
  std::vector<int> all(static_cast<std::size_t>(triangles_of(start.mesh)));
  std::iota(all.begin(), all.end(), 0);
  const Mesh same = refined(start.mesh, start.section, all);
  CHECK(same.triangles == fine.triangles);
  CHECK(same.nodes == fine.nodes);
}

TEST_CASE("area and perimeter stay, up to the curves' own P2 error",
          "[refine][order]") {
  const Meshed start = meshed_rods();
  const double area = exact_area(start.section);
  const double perimeter = mesh::perimeter(start.section.solids[0].outline);
  std::vector<double> area_off, perimeter_off;
  Mesh m = start.mesh;
  for (int round = 0; round < 3; ++round) {
    if (round) m = refined(m, start.section);
    area_off.push_back(std::abs(mesh_area(m) - area));
    perimeter_off.push_back(std::abs(boundary_length(m, 0, false) - perimeter));
  }
  // A parabola through three points of an arc of angle 2u encloses
  // 4/3 sin u (1 - cos u) in place of u - sin u cos u, an error of u^5/30 and
  // so of fourth order in all; its length differs in fourth order too.
  for (std::size_t k = 0; k < 2; ++k) {
    CAPTURE(area_off[k], area_off[k + 1], perimeter_off[k]);
    CHECK(std::log2(area_off[k] / area_off[k + 1]) > 3.9);
    CHECK(std::log2(perimeter_off[k] / perimeter_off[k + 1]) > 3.9);
  }
}

TEST_CASE("straight walls lose nothing, wherever one refines", "[refine]") {
  const Meshed start = meshed_plates();
  const double area = exact_area(start.section);
  Mesh m = start.mesh;
  for (int round = 0; round < 4; ++round)
    m = refined(m, start.section, every(m, 5));
  CHECK(mesh_area(m) == Approx(area).epsilon(1e-12));
  CHECK(
      boundary_length(m, 0, false) ==
      Approx(mesh::perimeter(start.section.solids[0].outline)).epsilon(1e-12));
}

TEST_CASE("what the boundary knows goes to both halves", "[refine]") {
  Meshed start = meshed_coin();
  start.mesh.notes = {"a note"};
  const Mesh fine = refined(start.mesh, start.section);
  CHECK(fine.notes == start.mesh.notes);
  REQUIRE(boundary_length(start.mesh, 0, true) > 0);
  // The lacquered face is straight.
  CHECK(boundary_length(fine, 0, true) ==
        Approx(boundary_length(start.mesh, 0, true)).epsilon(1e-12));
  REQUIRE(fine.boundary.size() == 2 * start.mesh.boundary.size());
  for (std::size_t k = 0; k < start.mesh.boundary.size(); ++k) {
    const BoundaryEdge& whole = start.mesh.boundary[k];
    const BoundaryEdge &a = fine.boundary[2 * k], &b = fine.boundary[2 * k + 1];
    for (const BoundaryEdge& half : {a, b}) {
      REQUIRE(half.owner == whole.owner);
      REQUIRE(half.loop == whole.loop);
      REQUIRE(half.curve == whole.curve);
      REQUIRE(half.masked == whole.masked);
    }
    REQUIRE(a.nodes[0] == whole.nodes[0]);
    REQUIRE(a.nodes[1] == whole.nodes[2]);
    REQUIRE(b.nodes[0] == whole.nodes[2]);
    REQUIRE(b.nodes[1] == whole.nodes[1]);
    REQUIRE(a.t_from == whole.t_from);
    REQUIRE(a.t_to == b.t_from);
    REQUIRE(b.t_to == whole.t_to);
  }
}

TEST_CASE("what is marked is halved all round, and no more than must be",
          "[refine]") {
  const Meshed start = meshed_coin();
  const Mesh m = refined(start.mesh, start.section, every(start.mesh, 7));
  std::mt19937 dice(20250);
  std::uniform_int_distribution<int> any(0, triangles_of(m) - 1);
  for (int trial = 0; trial < 20; ++trial) {
    const std::vector<int> marked = {any(dice), any(dice)};
    // The smallest set of edges that conformity allows, by brute force.
    std::set<int> halved;
    for (int t : marked)
      for (int k = 3; k < 6; ++k) halved.insert(m.triangles(k, t));
    for (std::size_t before = 0; before != halved.size();) {
      before = halved.size();
      for (int t = 0; t < triangles_of(m); ++t)
        if (halved.contains(m.triangles(4, t)) ||
            halved.contains(m.triangles(5, t)))
          halved.insert(m.triangles(3, t));
    }
    const Mesh fine = refined(m, start.section, marked);
    const auto corners = corners_of(fine);
    for (const auto& [middle, sides] : sides_by_middle(m))
      REQUIRE(corners.contains(middle) == halved.contains(middle));
    // Nodes keep their numbers and, inside, their places.
    std::set<int> on_boundary;
    for (const BoundaryEdge& e : m.boundary)
      on_boundary.insert(e.nodes.begin(), e.nodes.end());
    for (int n = 0; n < static_cast<int>(m.nodes.cols()); ++n)
      if (!on_boundary.contains(n))
        REQUIRE(m.nodes.col(n) == fine.nodes.col(n));
  }
}

TEST_CASE("one triangle of many leaves nearly all alone", "[refine]") {
  const Meshed start = meshed_coin();
  Mesh m = start.mesh;
  while (triangles_of(m) < 10'000) m = refined(m, start.section);
  for (int t : every(m, 997)) {
    const std::vector<int> marked = {t};
    const Mesh fine = refined(m, start.section, marked);
    CHECK(triangles_of(fine) - triangles_of(m) < triangles_of(m) / 100);
  }
}

TEST_CASE("towards one corner, angles stay above half of the least",
          "[refine]") {
  // Source: Rosenberg and Stenger, SIAM J. Numer. Anal. 12 (1975), for the
  // first cut through the longest edge (from memory); newest-vertex bisection
  // then makes no other shapes than those of the first two cuts.
  const Meshed start = meshed_plates();
  const double least = least_angle(start.mesh);
  REQUIRE(least > 0);
  // A corner of the part, and a corner in the middle of the liquid.
  const int corner = GENERATE(0, 1);
  std::set<int> inside = corners_of(start.mesh);
  int node = -1;
  for (const BoundaryEdge& e : start.mesh.boundary) {
    inside.erase(e.nodes[0]);
    if (e.owner == 0 && e.t_from == 1) node = e.nodes[0];
  }
  if (corner == 1) node = *inside.begin();
  REQUIRE(node >= 0);
  Mesh m = start.mesh;
  std::vector<int> added;
  for (int round = 0; round < 10; ++round) {
    const int before = triangles_of(m);
    m = refined(m, start.section, around(m, node));
    added.push_back(triangles_of(m) - before);
  }
  // Ten halvings of every edge that meets there.
  double longest = 0;
  for (int t : around(m, node))
    for (int k = 0; k < 3; ++k)
      longest = std::max(longest, (m.nodes.col(m.triangles(k, t)) -
                                   m.nodes.col(m.triangles((k + 1) % 3, t)))
                                      .norm());
  CHECK(longest < 0.1 / 1024);
  CHECK(least_angle(m) >= 0.5 * least * (1 - 1e-9));
  // The four shapes come back each second round, half as large: soon every
  // round adds the same handful and no share of the mesh.
  for (std::size_t round = 5; round < added.size(); ++round)
    CHECK(added[round] == added[4]);
  CHECK_NOTHROW(check_mesh(m));
  check_conforming(m);
}

TEST_CASE("bisection makes four shapes and no more", "[refine]") {
  // Source: Mitchell, ACM Trans. Math. Software 15 (1989) (from memory).
  Meshed start = one_triangle({{{0, 0}, {0.05, 0}, 0, ""},
                               {{0.05, 0}, {0.013, 0.031}, 0, ""},
                               {{0.013, 0.031}, {0, 0}, 0, ""}});
  longest_edge_first(start.mesh);
  Mesh m = start.mesh;
  std::mt19937 dice(7);
  for (int round = 0; round < 12; ++round) {
    std::vector<int> marked;
    for (int t = 0; t < triangles_of(m); ++t)
      if (dice() % 4 == 0) marked.push_back(t);
    m = refined(m, start.section, marked);
  }
  REQUIRE(triangles_of(m) > 1000);
  std::set<std::pair<long, long>> shapes;
  for (int t = 0; t < triangles_of(m); ++t) {
    std::array<double, 3> edge{};
    for (int k = 0; k < 3; ++k)
      edge[static_cast<std::size_t>(k)] =
          (m.nodes.col(m.triangles(k, t)) -
           m.nodes.col(m.triangles((k + 1) % 3, t)))
              .norm();
    std::sort(edge.begin(), edge.end());
    shapes.emplace(std::lround(1e8 * edge[0] / edge[2]),
                   std::lround(1e8 * edge[1] / edge[2]));
  }
  CHECK(shapes.size() == 4);
}

TEST_CASE("the longest edge comes first and all else stays", "[refine]") {
  Meshed start = meshed_rods();
  const auto has_longest_first = [](const Mesh& m) {
    for (int t = 0; t < triangles_of(m); ++t) {
      const auto length = [&](int k) {
        return (m.nodes.col(m.triangles(k, t)) -
                m.nodes.col(m.triangles((k + 1) % 3, t)))
            .norm();
      };
      if (length(0) < length(1) || length(0) < length(2)) return false;
    }
    return true;
  };
  CHECK(has_longest_first(start.mesh));  // as the generator hands it out
  // Triangles turned any way are turned back.
  Mesh turned = start.mesh;
  for (int t = 0; t < triangles_of(turned); ++t) {
    const Eigen::Matrix<int, 6, 1> c = turned.triangles.col(t);
    if (t % 3 == 1)
      turned.triangles.col(t) << c(1), c(2), c(0), c(4), c(5), c(3);
    if (t % 3 == 2)
      turned.triangles.col(t) << c(2), c(0), c(1), c(5), c(3), c(4);
  }
  CHECK_FALSE(has_longest_first(turned));
  longest_edge_first(turned);
  CHECK(turned.triangles == start.mesh.triangles);
  CHECK_NOTHROW(check_mesh(turned));
}

TEST_CASE("nothing marked, nothing done; what is no triangle is refused",
          "[refine]") {
  const Meshed start = meshed_rods();
  const Mesh same = refined(start.mesh, start.section, std::vector<int>{});
  CHECK(same.nodes == start.mesh.nodes);
  CHECK(same.triangles == start.mesh.triangles);
  CHECK(same.boundary.size() == start.mesh.boundary.size());
  const std::vector<int> before = {-1}, after = {triangles_of(start.mesh)};
  CHECK_THROWS_AS(refined(start.mesh, start.section, before),
                  std::out_of_range);
  CHECK_THROWS_AS(refined(start.mesh, start.section, after), std::out_of_range);
  const std::vector<int> once = {5}, twice = {5, 5, 5};
  CHECK(refined(start.mesh, start.section, once).triangles ==
        refined(start.mesh, start.section, twice).triangles);
}
