#include "solver/hanging.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;
using solver::Hanging;
using solver::Pocket;

namespace {

constexpr double pi = std::numbers::pi;
/// Far above everything: all is wetted.
constexpr double deep = 10;
/// Pools are cut a billionth of the body's size below their lip, which takes
/// size times mouth times 1e-9 off the area: at most 25 times the area here.
constexpr double rounding = 2.5e-8;

Loop closed(const std::vector<Point>& points) {
  Loop loop;
  for (std::size_t k = 0; k < points.size(); ++k)
    loop.push_back(
        {points[k], points[(k + 1) % points.size()], 0, std::to_string(k)});
  return loop;
}

// A cup of straight walls around the origin: bore 20 wide, 30 deep, walls 2.
constexpr double bore = 0.020, depth = 0.030, wall = 0.002;

Outline cup(double turn) {
  const double x = bore / 2, w = x + wall, y = depth / 2;
  const Outline o{{closed({{-w, -y - wall},
                           {w, -y - wall},
                           {w, y},
                           {x, y},
                           {x, -y},
                           {-x, -y},
                           {-x, y},
                           {-w, y}})}};
  return mesh::moved(o, turn, {0.3, 0.2});
}

/// An L of equal legs over all, outside corner lower left.
Outline bracket(double turn) {
  const double l = 0.040, t = 0.003;
  return mesh::moved(
      {{closed({{0, 0}, {l, 0}, {l, t}, {t, t}, {t, l}, {0, l}})}}, turn,
      {0.1, 0.2});
}

/// A bent strip of circular arcs, its ends cut along the radius, bowl upwards:
/// inner radius and half the angle that it spans.
Outline bowl(double inner, double thickness, double half_angle, double turn) {
  const double outer = inner + thickness;
  const auto at = [&](double r, double angle) {
    return Point(r * std::sin(angle), -r * std::cos(angle));
  };
  const double bulge = std::tan(half_angle / 2);
  const Loop loop{
      {at(outer, -half_angle), at(outer, half_angle), bulge, "back"},
      {at(outer, half_angle), at(inner, half_angle), 0, "tip"},
      {at(inner, half_angle), at(inner, -half_angle), -bulge, "bowl"},
      {at(inner, -half_angle), at(outer, -half_angle), 0, "heel"}};
  return mesh::moved({{loop}}, turn, {0.3, 0.2});
}

}  // namespace

TEST_CASE("a cup with its mouth up holds its bore and traps nothing") {
  const Hanging h = solver::read_hanging(cup(0), deep);
  REQUIRE(h.pools.size() == 1);
  const Pocket& p = h.pools.front();
  CHECK(p.area == Approx(bore * depth).epsilon(rounding));
  CHECK(p.depth == Approx(depth).epsilon(rounding));
  CHECK(p.width == Approx(bore).epsilon(rounding));
  CHECK(p.mouth == Approx(bore).epsilon(rounding));
  CHECK(p.level == Approx(0.2 + depth / 2));
  CHECK(p.deepest.y() == Approx(0.2 - depth / 2));
  CHECK(p.face == "4");
  CHECK(h.hollows.empty());
  // Its floor collects sludge, its bottom holds bubbles; the rims are narrow.
  REQUIRE(h.shelves.size() == 1);
  CHECK(h.shelves.front().width == Approx(bore));
  CHECK(h.shelves.front().face == "4");
  REQUIRE(h.undersides.size() == 1);
  CHECK(h.undersides.front().width == Approx(bore + 2 * wall));
}

TEST_CASE("a cup upside down traps its bore and holds nothing") {
  const Hanging h = solver::read_hanging(cup(pi), deep);
  CHECK(h.pools.empty());
  REQUIRE(h.hollows.size() == 1);
  const Pocket& p = h.hollows.front();
  CHECK(p.area == Approx(bore * depth).epsilon(rounding));
  CHECK(p.depth == Approx(depth).epsilon(rounding));
  CHECK(p.width == Approx(bore).epsilon(rounding));
  CHECK(p.level == Approx(0.2 - depth / 2));
  CHECK(p.deepest.y() == Approx(0.2 + depth / 2));
}

TEST_CASE("a cup on its side holds nothing") {
  for (double turn : {pi / 2, -pi / 2}) {
    const Hanging h = solver::read_hanging(cup(turn), deep);
    CHECK(h.pools.empty());
    CHECK(h.hollows.empty());
  }
}

TEST_CASE("a tilted cup holds a trapezoid, then a triangle") {
  // Tilted by a to the right, the level runs from the inner edge of the lower
  // rim. In the cup's own frame it falls off by tan a across the bore.
  for (double degrees : {10.0, 30.0, 50.0, 60.0, 80.0}) {
    CAPTURE(degrees);
    const double a = degrees * pi / 180;
    const double across = bore * std::tan(a);
    const double expected = across < depth ? bore * depth - bore * across / 2
                                           : depth * depth / std::tan(a) / 2;
    for (double sign : {-1.0, 1.0}) {
      const Hanging h = solver::read_hanging(cup(sign * a), deep);
      REQUIRE(h.pools.size() == 1);
      CHECK(h.pools.front().area == Approx(expected).epsilon(rounding));
      CHECK(h.hollows.empty());
    }
  }
}

TEST_CASE("a spoon's bowl holds a circular segment") {
  const double r = 0.025, half = 0.9;
  const double segment = r * r * (half - std::sin(half) * std::cos(half));
  const Hanging up = solver::read_hanging(bowl(r, 0.001, half, 0), deep);
  REQUIRE(up.pools.size() == 1);
  CHECK(up.pools.front().area == Approx(segment).epsilon(rounding));
  CHECK(up.pools.front().depth ==
        Approx(r * (1 - std::cos(half))).epsilon(rounding));
  CHECK(up.pools.front().mouth ==
        Approx(2 * r * std::sin(half)).epsilon(rounding));
  CHECK(up.pools.front().face == "bowl");
  CHECK(up.hollows.empty());
  // Where the normal is within ten degrees of upright.
  REQUIRE(up.shelves.size() == 1);
  CHECK(up.shelves.front().width ==
        Approx(2 * r * std::sin(10 * pi / 180)).epsilon(rounding));

  const Hanging down = solver::read_hanging(bowl(r, 0.001, half, pi), deep);
  CHECK(down.pools.empty());
  REQUIRE(down.hollows.size() == 1);
  CHECK(down.hollows.front().area == Approx(segment).epsilon(rounding));

  // Tilted by b, the lower lip lies at half - b from the lowest place: a
  // segment of that half angle is left.
  const double b = 0.3, rest = half - b;
  const Hanging tilted = solver::read_hanging(bowl(r, 0.001, half, b), deep);
  REQUIRE(tilted.pools.size() == 1);
  CHECK(tilted.pools.front().area ==
        Approx(r * r * (rest - std::sin(rest) * std::cos(rest)))
            .epsilon(rounding));
}

TEST_CASE("a token upright holds and traps nothing") {
  const double x = 0.0012, y = 0.015;
  const Hanging h = solver::read_hanging(
      {{closed({{-x, -y}, {x, -y}, {x, y}, {-x, y}})}}, deep);
  CHECK(h.pools.empty());
  CHECK(h.hollows.empty());
  CHECK(h.shelves.empty());
  CHECK(h.undersides.empty());
}

TEST_CASE("a slope counts as level up to ten degrees") {
  const Outline plate{{closed(
      {{-0.02, -0.001}, {0.02, -0.001}, {0.02, 0.001}, {-0.02, 0.001}})}};
  for (double degrees : {0.0, 9.0, 11.0, 45.0}) {
    CAPTURE(degrees);
    const Hanging h = solver::read_hanging(
        mesh::moved(plate, degrees * pi / 180, {0.1, 0.1}), deep);
    CHECK(h.shelves.size() == (degrees < 10 ? 1 : 0));
    CHECK(h.undersides.size() == (degrees < 10 ? 1 : 0));
  }
}

TEST_CASE("an L bracket in four turns and on its corner") {
  // An L has no pocket with a leg upright: it drains over the other's end.
  for (int k = 0; k < 4; ++k) {
    CAPTURE(k);
    const Hanging h = solver::read_hanging(bracket(k * pi / 2), deep);
    CHECK(h.pools.empty());
    CHECK(h.hollows.empty());
    // One leg lies: it has a shelf above and an underside below. Where the
    // corner is below, the other leg takes its thickness off the shelf.
    REQUIRE(h.shelves.size() == 1);
    REQUIRE(h.undersides.size() == 1);
    const bool corner_below = k == 0 || k == 1;
    CHECK(h.shelves.front().width == Approx(corner_below ? 0.037 : 0.040));
    CHECK(h.undersides.front().width == Approx(corner_below ? 0.040 : 0.037));
  }
  // Standing on its outside corner it holds a right triangle between the legs'
  // inner faces, 37 mm each; hanging by it, it traps the same.
  const Hanging v = solver::read_hanging(bracket(pi / 4), deep);
  REQUIRE(v.pools.size() == 1);
  CHECK(v.pools.front().area == Approx(0.037 * 0.037 / 2).epsilon(rounding));
  CHECK(v.pools.front().depth ==
        Approx(0.037 / std::sqrt(2.0)).epsilon(rounding));
  const Hanging roof = solver::read_hanging(bracket(pi / 4 + pi), deep);
  REQUIRE(roof.hollows.size() == 1);
  CHECK(roof.hollows.front().area ==
        Approx(0.037 * 0.037 / 2).epsilon(rounding));
}

TEST_CASE("a pocket under an overhang fills up to the lip that lets it out") {
  // A box of 40 by 20 inside, with a lid over its right half from which a
  // tongue hangs 6 into the liquid: what lies behind the tongue is filled
  // through below it, up to the lid's underside at 18 and no higher.
  const Outline o{{closed({{-0.002, -0.002},
                           {0.042, -0.002},
                           {0.042, 0.020},
                           {0.020, 0.020},
                           {0.020, 0.012},
                           {0.022, 0.012},
                           {0.022, 0.018},
                           {0.040, 0.018},
                           {0.040, 0},
                           {0, 0},
                           {0, 0.020},
                           {-0.002, 0.020}})}};
  const Hanging h = solver::read_hanging(o, deep);
  REQUIRE(h.pools.size() == 1);
  const double main = 0.020 * 0.020, below_tongue = 0.002 * 0.012,
               behind = 0.018 * 0.018;
  CHECK(h.pools.front().area ==
        Approx(main + below_tongue + behind).epsilon(rounding));
  CHECK(h.pools.front().mouth == Approx(0.020).epsilon(rounding));
  // Behind the tongue gas stays, down to the tongue's end.
  REQUIRE(h.hollows.size() == 1);
  CHECK(h.hollows.front().area == Approx(0.018 * 0.006).epsilon(rounding));
  CHECK(h.hollows.front().depth == Approx(0.006).epsilon(rounding));
}

TEST_CASE("two pits under one lip are one pool, apart they are two") {
  // A trough with a ridge on its floor, lower than the rims or as high.
  const auto trough = [](double ridge) {
    return Outline{{closed({{-0.002, -0.002},
                            {0.042, -0.002},
                            {0.042, 0.010},
                            {0.040, 0.010},
                            {0.040, 0},
                            {0.025, 0},
                            {0.020, ridge},
                            {0.015, 0},
                            {0, 0},
                            {0, 0.010},
                            {-0.002, 0.010}})}};
  };
  const Hanging one = solver::read_hanging(trough(0.004), deep);
  REQUIRE(one.pools.size() == 1);
  CHECK(one.pools.front().area ==
        Approx(0.040 * 0.010 - 0.005 * 0.004).epsilon(rounding));
  const Hanging two = solver::read_hanging(trough(0.014), deep);
  REQUIRE(two.pools.size() == 2);
  // Each pit reaches up to the rim beside it; half the ridge stands in it.
  const double ridge = 0.005 * (0.010 - 0.010 * 0.010 / (2 * 0.014));
  for (const Pocket& p : two.pools)
    CHECK(p.area == Approx(0.020 * 0.010 - ridge).epsilon(rounding));
  CHECK(two.pools[0].deepest.x() < two.pools[1].deepest.x());
}

TEST_CASE("only what is below the level counts") {
  // Rims at 0.2 + 0.015 above the floor.
  CHECK(solver::read_hanging(cup(0), 0.210).pools.empty());
  CHECK(solver::read_hanging(cup(0), 0.210).shelves.size() == 1);
  CHECK(solver::read_hanging(cup(0), 0.216).pools.size() == 1);
  // Gas goes in as soon as the mouth dips, as high as the liquid around.
  CHECK(solver::read_hanging(cup(pi), 0.180).hollows.empty());
  const Hanging half = solver::read_hanging(cup(pi), 0.195);
  REQUIRE(half.hollows.size() == 1);
  CHECK(half.hollows.front().depth == Approx(0.010));
  CHECK(solver::read_hanging(cup(pi), deep).shelves.size() == 1);
  CHECK(solver::read_hanging(cup(pi), 0.210).shelves.empty());
}

TEST_CASE("a ring seen end on has no pockets: its bore is open at its ends") {
  const Point left(-0.01, 0), right(0.01, 0), l2(-0.008, 0), r2(0.008, 0);
  const Outline ring{
      {{{left, right, 1, "outside"}, {right, left, 1, "outside"}},
       {{r2, l2, -1, "bore"}, {l2, r2, -1, "bore"}}}};
  const Hanging h = solver::read_hanging(ring, deep);
  CHECK(h.pools.empty());
  CHECK(h.hollows.empty());
}
