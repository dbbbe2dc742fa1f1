#include "mesh/arc_fit.hpp"
#include "mesh/outline_spline.hpp"
#include "tests/unit/outline_samples.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::dxf;
using tests::entity;
using tests::Group;
using tests::line;
using tests::read_text;
using tests::refusal;

namespace {

constexpr double pi = std::numbers::pi;

/// As mesh/arc_fit.hpp promises.
constexpr double kOfExtent = 2e-5, kOfLength = 1e-4;

std::string spline(int degree, const std::vector<double>& knots,
                   const std::vector<Point>& points,
                   const std::vector<double>& weights = {}, int flags = 0) {
  std::vector<Group> groups{{70, double(flags)},
                            {71, double(degree)},
                            {72, double(knots.size())},
                            {73, double(points.size())}};
  for (double knot : knots) groups.push_back({40, knot});
  for (double w : weights) groups.push_back({41, w});
  for (const Point& p : points) {
    groups.push_back({10, p.x()});
    groups.push_back({20, p.y()});
    groups.push_back({30, 0});
  }
  return entity("SPLINE", groups);
}

std::string ellipse(double a, double b, double from, double to) {
  return entity(
      "ELLIPSE",
      {{10, 3}, {20, 4}, {11, 0}, {21, a}, {40, b / a}, {41, from}, {42, to}});
}

}  // namespace

TEST_CASE("a drawn ellipse: area, perimeter, nearness, no kinks") {
  for (const auto& [a, b] : {std::pair{10.0, 9.0}, {10.0, 5.0}, {10.0, 1.0}}) {
    CAPTURE(b);
    const auto o = read_text("a.dxf", dxf(ellipse(a, b, 0, 2 * pi))).outline;
    REQUIRE(o.loops.size() == 1);
    // P = 4 a E(e), the complete elliptic integral of the second kind
    // (Abramowitz and Stegun, 17.3.3). Moved out by e, an outline changes its
    // area by at most e P and, as it turns once, its perimeter by 2 pi e.
    const double P = 4 * a * std::comp_ellint_2(std::sqrt(1 - b * b / (a * a)));
    const double e = kOfExtent * 2 * a;
    CHECK(1e6 * area(o) == Approx(pi * a * b).margin(e * P));
    CHECK(1e3 * perimeter(o) == Approx(P).margin(2 * pi * e));
    double farthest = 0;
    for (int k = 0; k < 3000; ++k) {
      const double t = 2 * pi * k / 3000;
      farthest = std::max(
          farthest, tests::distance_from(o, 1e-3 * Point(3 - b * std::sin(t),
                                                         4 + a * std::cos(t))));
    }
    CHECK(farthest < 1e-3 * e);
    // Straight pieces and joints may leave 2e-7 a side; 1e-6 is what the
    // mesher takes for a corner.
    CHECK(tests::largest_kink(o) < 1e-6);
    CHECK(o.loops[0].size() < 300);
  }
}

TEST_CASE("part of an ellipse ends where it should, on its own layer") {
  // The half with y > 4 of the ellipse whose long axis is along y.
  const auto o = read_text("a.dxf", dxf(ellipse(10, 5, -pi / 2, pi / 2) +
                                        line(-2, 4, 8, 4, "waterline")))
                     .outline;
  CHECK(1e6 * area(o) == Approx(25 * pi).margin(kOfExtent * 10 * 48.4));
  CHECK(bounding_box(o).low.y() == Approx(4e-3).epsilon(1e-9));
  CHECK(bounding_box(o).high.y() == Approx(14e-3).epsilon(1e-6));
}

TEST_CASE("a circle told as a rational spline is four arcs") {
  // Nine points, weights 1 and 1/sqrt 2 (Piegl and Tiller, The NURBS Book,
  // 2nd ed., example 7.4).
  const double w = std::sqrt(0.5);
  std::vector<Point> points;
  std::vector<double> weights;
  for (int k = 0; k < 9; ++k) {
    const double r = k % 2 == 0 ? 5 : 5 / w;
    points.emplace_back(r * std::cos(k * pi / 4), r * std::sin(k * pi / 4));
    weights.push_back(k % 2 == 0 ? 1 : w);
  }
  const std::string text =
      spline(2, {0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4}, points, weights, 13);
  const auto o = read_text("a.dxf", dxf(text)).outline;
  REQUIRE(o.loops.size() == 1);
  CHECK(o.loops[0].size() == 4);
  CHECK(1e6 * area(o) == Approx(25 * pi).epsilon(1e-8));
  CHECK(1e3 * perimeter(o) == Approx(10 * pi).epsilon(1e-8));
}

TEST_CASE("splines keep their corners, straight stretches and knots") {
  // Of the first degree: a polygon.
  const std::vector<Point> square{{0, 0}, {4, 0}, {4, 4}, {0, 4}, {0, 0}};
  auto o =
      read_text("a.dxf", dxf(spline(1, {0, 0, 1, 2, 3, 4, 4}, square))).outline;
  CHECK(o.loops[0].size() == 4);
  CHECK(1e6 * area(o) == Approx(16).epsilon(1e-12));
  // A cubic with a threefold knot: two Bezier pieces that meet at a corner.
  // y = x^2 from (-1, 1) to (0, 0), then straight to (1, 1):
  // area under the line y = 1 is 2/3 + 1/2.
  const std::vector<Point> corner{{-1, 1}, {-2. / 3, 1. / 3}, {-1. / 3, 0},
                                  {0, 0},  {1. / 3, 1. / 3},  {2. / 3, 2. / 3},
                                  {1, 1}};
  o = read_text("a.dxf",
                dxf(spline(3, {0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2}, corner) +
                    line(1, 1, -1, 1)))
          .outline;
  CHECK(1e6 * area(o) ==
        Approx(2. / 3 + 0.5).margin(2 * kOfExtent * std::sqrt(5.0)));
  int straight = 0;
  for (const Curve& c : o.loops[0])
    if (!is_arc(c)) ++straight;
  CHECK(straight == 2);
}

TEST_CASE("a spline by points on it alone: smooth through all of them") {
  // 32 points of a circle. A cubic spline over steps h misses a function by
  // at most 5/384 h^4 of its fourth derivative (Hall and Meyer, J. Approx.
  // Theory 16 (1976) 105), here 1 on the unit circle.
  std::vector<Group> groups{{70, 1}, {71, 3}, {74, 32}};
  for (int k = 0; k < 32; ++k) {
    groups.push_back({11, 5 * std::cos(k * pi / 16)});
    groups.push_back({21, 5 * std::sin(k * pi / 16)});
  }
  const auto drawn = read_text("a.dxf", dxf(entity("SPLINE", groups)));
  const double miss = 5 * 5. / 384 * std::pow(pi / 16, 4) + kOfExtent * 10;
  CHECK(1e6 * area(drawn.outline) == Approx(25 * pi).margin(miss * 10 * pi));
  CHECK(tests::largest_kink(drawn.outline) < 1e-6);
  REQUIRE(drawn.notes.size() == 1);
  CHECK_THAT(drawn.notes[0], Catch::Contains("a guess"));
}

TEST_CASE("splines that are none are refused") {
  const std::vector<Point> p{{0, 0}, {1, 0}, {1, 1}, {0, 1}};
  using Catch::Contains;
  const auto said = [](const std::string& text) {
    return refusal("a.dxf", dxf(text));
  };
  CHECK_THAT(said(spline(3, {0, 0, 0, 0, 1, 1, 1}, p)), Contains("needs 8"));
  CHECK_THAT(said(spline(3, {0, 0, 0, 0, 1, 1, 0, 1}, p)),
             Contains("do not ascend"));
  CHECK_THAT(said(spline(3, {0, 0, 0, 0, 0, 0, 0, 0}, p)),
             Contains("all the same"));
  CHECK_THAT(said(spline(0, {0, 1, 2, 3, 4}, p)), Contains("degree 0"));
  CHECK_THAT(said(spline(99, {0, 1, 2, 3, 4}, p)), Contains("degree 99"));
  CHECK_THAT(said(spline(1, {0, 0, 1, 1, 2, 2}, p)), Contains("gap in it"));
  CHECK_THAT(said(spline(3, {0, 0, 0, 0, 1, 1, 1, 1}, p, {1, 0, 1, 1})),
             Contains("weight of 0"));
  CHECK_THAT(said(entity("SPLINE", {{71, 3}})), Contains("fewer than two"));
  // Lengths whose squares overflow.
  CHECK_THAT(said(entity("SPLINE", {{71, 3},
                                    {11, 0},
                                    {21, 0},
                                    {11, 1e308},
                                    {21, 0},
                                    {11, 0},
                                    {21, 1e308},
                                    {11, 5},
                                    {21, 5}})),
             Contains("out of all measure"));
}

TEST_CASE("pairs of arcs stay as near as their own length asks") {
  // A curve whose curvature grows along it: y = x^3.
  ParametricCurve cubic;
  cubic.at = [](double t) { return Point(t, t * t * t); };
  cubic.velocity = [](double t) { return Point(1, 3 * t * t); };
  cubic.knots = {-1, 1};
  const std::vector<Curve> pieces = fit_arcs(cubic, 1000);
  const Outline o{{pieces}};
  double longest = 0;
  for (const Curve& c : pieces) longest = std::max(longest, length(c));
  for (int k = -1000; k <= 1000; ++k)
    REQUIRE(tests::distance_from(o, cubic.at(k / 1000.0)) <
            std::min(2 * kOfExtent, 2 * kOfLength * longest));
  CHECK((pieces.front().from - Point(-1, -1)).norm() == 0);
  CHECK((pieces.back().to - Point(1, 1)).norm() == 0);
  CHECK_THROWS_AS(fit_arcs(cubic, 4), InputError);
}
