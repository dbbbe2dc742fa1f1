// Where curves meet, against points that are known: lines, arcs that bend much,
// and arcs that hardly bend, whose centre lies kilometres away.
#include "mesh/crossing.hpp"
#include "mesh/curve.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace thinspot::mesh;

namespace {

/// An arc through `at` with half of the chord to either side of it.
Curve flat_arc(const Point& at, const Point& half, double bulge) {
  // The chord is moved back by the sagitta, which lies right of travel.
  const Point right(half.y(), -half.x());
  const Point back = at - bulge * right;
  return {back - half, back + half, bulge, ""};
}

/// The nearest to `at` of the points in which b meets a.
double miss(const Curve& a, const Curve& b, const Point& at) {
  double best = 1e300;
  for (const double t : crossings(a, b))
    best = std::min(best, (point_at(a, t) - at).norm());
  return best;
}

}  // namespace

TEST_CASE("curves meet where they were laid through one point") {
  const Point at(0.003, -0.002);
  // Arcs go with 1e-9 of their length for the same point.
  for (const double bulge : {0.0, 1e-6, 6.8e-5, -0.01, 0.4, -1.0})
    for (const double other : {0.0, -1e-6, 0.002, -0.3, 1.0})
      for (const double size : {1e-3, 0.36})
        for (const double angle : {0.05, 0.9, 2.0, 3.1}) {
          INFO(bulge << " " << other << " " << size << " " << angle);
          const Point way(std::cos(angle), std::sin(angle));
          const Curve a = flat_arc(at, {size, 0}, bulge);
          const Curve b = flat_arc(at, 7e-5 * way, other);
          const double near = 1e-9 * (length(a) + length(b));
          CHECK(miss(a, b, at) <= 2 * near);
          CHECK(miss(b, a, at) <= 2 * near);
        }
}

TEST_CASE("curves that stay apart do not meet") {
  for (const double bulge : {0.0, 1e-6, 6.8e-5, -0.01, 0.4})
    for (const double beside : {2e-6, -2e-6}) {
      INFO(bulge << " " << beside);
      const Curve a = flat_arc({0, 0}, {0.36, 0}, bulge);
      // Parallel there, the other one straight or bent away.
      const Point at(0, beside);
      CHECK(crossings(a, flat_arc(at, {1e-5, 0}, 0)).empty());
      CHECK(crossings(a, flat_arc(at, {1e-5, 0}, beside < 0 ? -0.1 : 0.1))
                .empty());
    }
}

TEST_CASE("a long flat arc through a small loop crosses it") {
  const Curve flat{
      {0.003, 0.001}, {0.22915781, -0.67778248}, -6.829387e-05, ""};
  const Curve small{{0.0033659391548617307, 0.000235795109146145},
                    {0.00324904726232367, 0.0001494748176404259},
                    -0.015400394017263218,
                    ""};
  // The chords cross at x 3.2766 mm; the arcs stray from them by micrometres.
  CHECK(miss(flat, small, {0.0032766, 0.00016982}) < 5e-6);
}
