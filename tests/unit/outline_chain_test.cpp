#include "mesh/outline_chain.hpp"

#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace thinspot;
using mesh::Curve;
using mesh::Point;

namespace {

constexpr double kTolerance = 1e-3;

/// Four sides of a square at a place; where one ends, the next begins `gap`
/// away in some direction.
std::vector<Curve> square(const Point& at, double gap, double direction) {
  const Point off = gap * Point(std::cos(direction), std::sin(direction));
  const Point a = at, b = at + Point(1, 0), c = at + Point(1, 1),
              d = at + Point(0, 1);
  return {{a, b + off, 0, ""},
          {b, c + off, 0, ""},
          {c, d + off, 0, ""},
          {d, a + off, 0, ""}};
}

}  // namespace

TEST_CASE("ends within the tolerance are one point, wherever they lie") {
  const double turn = 2 * std::numbers::pi / 17;
  for (int k = 0; k < 170; ++k) {
    // A third of the tolerance on each time: all places in a square of ends.
    const Point at(k * kTolerance / 3, -7 * k * kTolerance / 5);
    CAPTURE(k);
    const auto loops =
        mesh::chain(square(at, 0.999 * kTolerance, k * turn), kTolerance, "mm");
    REQUIRE(loops.size() == 1);
    CHECK(loops[0].size() == 4);
    CHECK_THROWS_AS(
        mesh::chain(square(at, 1.001 * kTolerance, k * turn), kTolerance, "mm"),
        InputError);
  }
}

TEST_CASE("far from the origin the same ends are one point") {
  // Doubles here are 2^-17 apart, more than ten million of the tolerance.
  const double far = std::ldexp(1, 36);
  const auto loops = mesh::chain(square({far, -far}, 0, 0), 1e-12, "mm");
  REQUIRE(loops.size() == 1);
  CHECK(loops[0].size() == 4);
}

TEST_CASE("many thousand ends above each other are chained") {
  // Of each with each, 1.6e9 distances: a minute. By squares, no time.
  constexpr int kSquares = 5000;
  std::vector<Curve> pieces;
  for (int k = 0; k < kSquares; ++k)
    for (const Curve& c : square({0, 2. * k}, 0, 0)) pieces.push_back(c);
  CHECK(mesh::chain(pieces, kTolerance, "mm").size() == kSquares);
}
