#include "mesh/repair.hpp"
#include "mesh/errors.hpp"
#include "mesh/mesh.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::mesh;

namespace {

double twice_area(const RawTriangles& raw, std::size_t t) {
  const auto at = [&](std::size_t k) {
    return raw.nodes.at(raw.corners[3 * t + k]);
  };
  const Point a = at(1) - at(0), b = at(2) - at(0);
  return a.x() * b.y() - a.y() * b.x();
}

/// Two good triangles above a bottom edge whose middle node a flat third
/// triangle cuts off; the flat one given either way round.
RawTriangles cut_off(bool turned, double bump) {
  RawTriangles raw;
  raw.nodes = {{1, {0, 0}}, {2, {2, 0}}, {3, {1, bump}}, {4, {1, 1}}};
  raw.corners = {1, 2, 4};
  if (turned)
    raw.corners.insert(raw.corners.end(), {2, 1, 3});
  else
    raw.corners.insert(raw.corners.end(), {1, 2, 3});
  return raw;
}

Mesh one_triangle() {
  Mesh mesh;
  mesh.nodes.resize(2, 6);
  mesh.nodes << 0, 1, 0, 0.5, 0.5, 0, 0, 0, 1, 0, 0.5, 0.5;
  mesh.triangles.resize(6, 1);
  mesh.triangles << 0, 1, 2, 3, 4, 5;
  return mesh;
}

}  // namespace

TEST_CASE("a flat triangle gives its longest edge away") {
  const bool turned = GENERATE(false, true);
  const double bump = GENERATE(0.0, -1e-15);
  CAPTURE(turned, bump);
  RawTriangles raw = cut_off(turned, bump);
  CHECK(swap_flat_triangles(raw));
  REQUIRE(raw.corners.size() == 6);
  double area = 0;
  for (std::size_t t : {0u, 1u}) {
    CHECK(twice_area(raw, t) == Approx(1));  // half of the whole each
    area += twice_area(raw, t);
  }
  CHECK(area == Approx(2));
}

TEST_CASE("a sound mesh is left as it is; a hopeless one is said to be") {
  RawTriangles sound;
  sound.nodes = {{1, {0, 0}}, {2, {1, 0}}, {3, {0, 1}}};
  sound.corners = {1, 2, 3};
  const auto before = sound.corners;
  CHECK(swap_flat_triangles(sound));
  CHECK(sound.corners == before);
  RawTriangles alone;  // its longest edge has nobody to go to
  alone.nodes = {{1, {0, 0}}, {2, {2, 0}}, {3, {1, 0}}};
  alone.corners = {1, 2, 3};
  CHECK_FALSE(swap_flat_triangles(alone));
}

TEST_CASE("check_mesh refuses flat and folded triangles") {
  const Mesh mesh = one_triangle();
  CHECK_NOTHROW(check_mesh(mesh));
  Mesh flat = mesh;
  flat.nodes.row(1) *= 1e-6;
  CHECK_THROWS_AS(check_mesh(flat), NoResultError);
  Mesh folded = mesh;
  folded.nodes.col(3) = Point(0.5, 0.6);
  CHECK_THROWS_AS(check_mesh(folded), NoResultError);
  Mesh turned = mesh;
  turned.triangles << 0, 2, 1, 5, 4, 3;
  CHECK_THROWS_AS(check_mesh(turned), NoResultError);
}

TEST_CASE("check_mesh refuses a boundary that goes to and fro") {
  Mesh mesh = one_triangle();
  mesh.boundary = {{{0, 1, 3}, 0, 0, 0, 0, 0.5, 0.2, false},
                   {{1, 2, 4}, 0, 0, 0, 0, 0.2, 0.1, false},
                   {{2, 0, 5}, 0, 0, 0, 1, 0.1, 0.3, false}};
  CHECK_NOTHROW(check_mesh(mesh));  // another curve may run the other way
  mesh.boundary[1].t_to = 0.3;
  CHECK_THROWS_WITH(check_mesh(mesh), Catch::Matchers::Contains("folds"));
  mesh.boundary[1].t_to = 0.2;
  CHECK_THROWS_WITH(check_mesh(mesh), Catch::Matchers::Contains("folds"));
  for (BoundaryEdge& e : mesh.boundary) e.owner = kDisc;
  CHECK_NOTHROW(check_mesh(mesh));  // a disc has liquid on both sides
}
