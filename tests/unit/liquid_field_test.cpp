// Lines and regions of the field against what can be told without computing,
// and the surface of the part cut into what is drawn alike.

#include "viz/liquid_field.hpp"
#include "tests/unit/synthetic_result.hpp"
#include "viz/coating.hpp"
#include "viz/fine_mesh.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;
using mesh::Point;

namespace {

constexpr double side = 0.1;  // [m]

/// A square of two quadratic triangles with potential and current as given.
template <class Potential, class Current>
solver::Result square(Potential potential, Current current) {
  solver::Result r;
  r.mesh.nodes.resize(2, 9);
  r.mesh.nodes << 0, 1, 1, 0, .5, 1, .5, .5, 0,  //
      0, 0, 1, 1, 0, .5, .5, 1, .5;
  r.mesh.nodes *= side;
  r.mesh.triangles.resize(6, 2);
  r.mesh.triangles << 0, 0, 1, 2, 2, 3, 4, 6, 5, 7, 6, 8;
  r.potential.resize(9);
  r.current_density.resize(2, 9);
  for (Eigen::Index k = 0; k < 9; ++k) {
    const Point p = r.mesh.nodes.col(k);
    r.potential[k] = potential(p);
    r.current_density.col(k) = current(p);
  }
  return r;
}

double area(const viz::Chain& chain) {
  double twice = 0;
  for (std::size_t k = 0; k < chain.size(); ++k) {
    const Point& a = chain[k];
    const Point& b = chain[(k + 1) % chain.size()];
    twice += a.x() * b.y() - a.y() * b.x();
  }
  return twice / 2;
}

}  // namespace

TEST_CASE("cutting quadratic triangles loses nothing of a quadratic field") {
  const auto f = [](const Point& p) {
    return 3 + 2 * p.x() - p.y() + 40 * p.x() * p.y() + 70 * p.y() * p.y();
  };
  const auto r = square(f, [](const Point& p) { return Point(p.y(), 1); });
  const viz::FineMesh fine = viz::fine_mesh(r, 128);  // 64 of each triangle
  CHECK(fine.triangles.cols() == 128);
  // A lattice of 9 x 9 points, none of them twice.
  REQUIRE(fine.nodes.cols() == 81);
  double whole = 0;
  for (Eigen::Index k = 0; k < fine.nodes.cols(); ++k) {
    const Point p = fine.nodes.col(k);
    CHECK(fine.potential[k] == Approx(f(p)).epsilon(1e-12));
    CHECK(fine.current_density(0, k) == Approx(p.y()).margin(1e-12));
  }
  for (Eigen::Index t = 0; t < fine.triangles.cols(); ++t) {
    const Point a = fine.nodes.col(fine.triangles(0, t));
    const Point u = fine.nodes.col(fine.triangles(1, t)) - a;
    const Point v = fine.nodes.col(fine.triangles(2, t)) - a;
    const double twice = u.x() * v.y() - u.y() * v.x();
    CHECK(twice > 0);
    whole += twice / 2;
  }
  CHECK(whole == Approx(side * side));
}

TEST_CASE("lines of equal potential lie where the potential has the value") {
  const auto r = square([](const Point& p) { return p.x() / side; },
                        [](const Point&) { return Point(1, 0); });
  const viz::LiquidField field(r);
  const auto chains = field.equipotential(0.3);
  REQUIRE(chains.size() == 1);  // joined to one
  double low = 1, high = 0;
  for (const Point& p : chains[0]) {
    CHECK(p.x() == Approx(0.3 * side));
    low = std::min(low, p.y());
    high = std::max(high, p.y());
  }
  CHECK(low == Approx(0).margin(1e-12));
  CHECK(high == Approx(side));
  CHECK(field.lowest_potential() == Approx(0).margin(1e-12));
  CHECK(field.highest_potential() == Approx(1));
  CHECK(field.equipotential(2).empty());
}

TEST_CASE("regions hold what lies above each level") {
  const auto r = square([](const Point&) { return 1.0; },
                        [](const Point& p) { return Point(100 * p.x(), 0); });
  const viz::LiquidField field(r);
  const auto regions = field.regions_above({2.5, 7});
  REQUIRE(regions.size() == 2);
  REQUIRE(regions[0].size() == 1);
  REQUIRE(regions[1].size() == 1);
  CHECK(std::abs(area(regions[0][0])) == Approx(0.75 * side * side));
  CHECK(std::abs(area(regions[1][0])) == Approx(0.30 * side * side));
  // Told by triangles an eighth of the square wide, over which it grows by
  // 10/8.
  CHECK(field.current_density_quantile(0.5) == Approx(5).margin(10.0 / 8));
  CHECK(field.regions_above({}).empty());
}

TEST_CASE("current lines run against the current to where it comes from") {
  const auto r = square([](const Point&) { return 1.0; },
                        [](const Point&) { return Point(0, -3); });
  const viz::LiquidField field(r);
  const viz::Chain line = field.upstream({0.03, 0.01});
  REQUIRE(line.size() > 2);
  CHECK(line.front().y() == Approx(0.01));
  CHECK(line.back().y() > 0.95 * side);
  for (const Point& p : line) CHECK(p.x() == Approx(0.03));
  CHECK(field.upstream({1, 1}).size() < 2);
}

TEST_CASE("current lines share the current evenly") {
  solver::Result r = tests::synthetic_result();
  auto& part = r.parts.front();
  // Nine tenths of the current on the first half of the points.
  const std::size_t half = part.surface.size() / 2;
  for (std::size_t k = 0; k < part.surface.size(); ++k)
    part.surface[k].current_density = k < half ? 9 : 1;
  const auto points = viz::equal_current_points(r, 20);
  REQUIRE(points.size() == 20);
  CHECK(std::count_if(points.begin(), points.end(),
                      [&](const auto& p) { return p.point < half; }) == 18);
  for (auto& s : part.surface) s.current_density = 0;
  CHECK(viz::equal_current_points(r, 20).empty());
}

TEST_CASE("a closed surface of one kind is one stretch around") {
  const auto r = tests::synthetic_result({.unjudged = false});
  const auto pieces = viz::stretches(r, r.parts.front());
  REQUIRE(pieces.size() == 1);
  CHECK(pieces[0].judged);
  CHECK(pieces[0].points.front() == pieces[0].points.back());
  CHECK(pieces[0].points.size() == r.parts.front().surface.size() + 1);
}

TEST_CASE("what is not judged is a stretch of its own") {
  const auto r = tests::synthetic_result({.unjudged = true});
  const auto pieces = viz::stretches(r, r.parts.front());
  REQUIRE(pieces.size() == 2);
  CHECK(pieces[0].judged != pieces[1].judged);
  // Unrolled, the judged surface is cut at the loop's lowest point as well.
  CHECK(viz::unrolled_stretches(r, r.parts.front()).size() == 3);
}

TEST_CASE("dry metal is in no stretch") {
  const auto r = tests::synthetic_result({.part_size = {4e-3, 60e-3},
                                          .part_at = {45e-3, 80e-3},

                                          .level = 0.08,
                                          .unjudged = false});
  const auto& surface = r.parts.front().surface;
  const auto pieces = viz::stretches(r, r.parts.front());
  REQUIRE(pieces.size() == 1);
  for (const std::size_t k : pieces[0].points) CHECK(surface[k].wetted);
  CHECK(pieces[0].points.front() != pieces[0].points.back());
}

TEST_CASE("a surface that ends at the axis is not closed across it") {
  auto r =
      tests::synthetic_result({.part_size = {40e-3, 3e-3}, .unjudged = false});
  auto& s = r.parts.front().surface;
  // Keep the right half, as an axisymmetric solution gives it.
  std::erase_if(s, [](const auto& p) { return p.at.x() < 45e-3; });
  REQUIRE(s.size() > 20);
  const auto loops = viz::surface_loops(r, r.parts.front());
  REQUIRE(loops.size() == 1);
  CHECK_FALSE(loops[0].closed);
  CHECK(loops[0].length < 0.8 * loops[0].perimeter);
}

TEST_CASE("the coating is drawn so many times too thick") {
  const auto r = tests::synthetic_result({.unjudged = false, .swing = 0});
  const auto& part = r.parts.front();
  const auto piece = viz::stretches(r, part).front();
  const auto metal = viz::offset_surface(part, piece, 0);
  const auto outer = viz::coating_surface(part, piece, 100, 1);
  for (std::size_t k = 0; k < metal.size(); ++k)
    CHECK((outer[k] - metal[k]).norm() == Approx(100 * 15e-6));
  const auto held = viz::coating_surface(part, piece, 100, 5e-6);
  CHECK((held[0] - metal[0]).norm() == Approx(100 * 5e-6));
}
