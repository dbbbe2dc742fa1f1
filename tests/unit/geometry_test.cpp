#include "mesh/crossing.hpp"
#include "mesh/curve.hpp"
#include "mesh/errors.hpp"
#include "mesh/rounded_polygon.hpp"
#include "mesh/section.hpp"
#include "mesh/shape.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using namespace thinspot::mesh;
using tests::solid;

namespace {

constexpr double pi = std::numbers::pi;

Outline outline(const char* shape, const Sizes& sizes, Cut cut = Cut::side) {
  return find_shape(shape)->outline(sizes, cut);
}

SectionSpec tank_with(const std::vector<Solid>& solids) {
  SectionSpec spec;
  spec.tank = {Tank::Shape::box, 0.1, 0.12, 0.1};
  spec.solids = solids;
  return spec;
}

const Sizes sheet{{"width", 0.002}, {"height", 0.06}};
const Sizes token{{"diameter", 0.03}, {"thickness", 0.002}};

std::string wrong_of(const SectionSpec& spec) {
  try {
    build_section(spec);
  } catch (const InputError& e) {
    std::string all;
    for (const Problem& p : e.problems()) all += p.key + ": " + p.wrong + "\n";
    return all;
  }
  return "";
}

}  // namespace

TEST_CASE("arcs by bulge: centre, radius, length, points") {
  // Quarter of the unit circle from (1,0) to (0,1), counter-clockwise.
  const Curve arc{{1, 0}, {0, 1}, std::tan(pi / 8), ""};
  CHECK(radius(arc) == Approx(1).epsilon(1e-14));
  CHECK(centre(arc).norm() < 1e-15);
  CHECK(length(arc) == Approx(pi / 2).epsilon(1e-14));
  CHECK((point_at(arc, 0.5) - Point(std::sqrt(0.5), std::sqrt(0.5))).norm() <
        1e-14);
  CHECK((outward_normal(arc, 0) - Point(1, 0)).norm() < 1e-14);
  CHECK(nearest(arc, {2, 2}).t == Approx(0.5));
  CHECK(nearest(arc, {2, 2}).distance == Approx(2 * std::sqrt(2.0) - 1));
  CHECK(nearest(arc, {0.1, -3}).t == 0);  // off the end
}

TEST_CASE("areas and perimeters of shapes against closed forms") {
  const double r = 0.0003;
  const Outline coin = outline(
      "coin", {{"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", r}});
  CHECK(area(coin) == Approx(0.03 * 0.0024 - (4 - pi) * r * r).epsilon(1e-12));
  CHECK(perimeter(coin) ==
        Approx(2 * (0.03 + 0.0024) - (8 - 2 * pi) * r).epsilon(1e-12));
  const Outline rod = outline("rod", {{"diameter", 0.02}}, Cut::plan);
  CHECK(area(rod) == Approx(pi * 1e-4).epsilon(1e-12));
  const Outline tube = outline(
      "tube", {{"diameter", 0.02}, {"wall", 0.002}, {"open", 1}}, Cut::plan);
  CHECK(area(tube) == Approx(pi * (1e-4 - 0.64e-4)).epsilon(1e-12));
  CHECK(perimeter(tube) == Approx(2 * pi * 0.018).epsilon(1e-12));
  CHECK(bounding_box(rod).size().x() == Approx(0.02).epsilon(1e-12));
}

TEST_CASE("rounded edges that leave no flat between them still close") {
  const Outline coin = outline(
      "coin",
      {{"diameter", 0.03}, {"thickness", 0.0024}, {"edge_radius", 0.0012}});
  CHECK(coin.loops[0].size() == 6);  // two faces, four quarter arcs
  CHECK(area(coin) ==
        Approx(0.03 * 0.0024 - (4 - pi) * 0.0012 * 0.0012).epsilon(1e-9));
  CHECK_THROWS_AS(outline("coin", {{"diameter", 0.03},
                                   {"thickness", 0.0024},
                                   {"edge_radius", 0.0013}}),
                  InputError);
}

TEST_CASE("inside and outside, also on the chord of an arc") {
  const Outline rod = outline("rod", {{"diameter", 2}}, Cut::plan);
  for (double x : {-0.9, -0.3, 0.0, 0.5})
    for (double y : {-0.2, 0.0, 1e-17, -1e-17, 0.3})
      CHECK(contains(rod, {x, y}));
  CHECK_FALSE(contains(rod, {1.1, 0}));
  CHECK_FALSE(contains(rod, {0.8, 0.8}));
  const Outline tube =
      outline("tube", {{"diameter", 2}, {"wall", 0.5}, {"open", 1}}, Cut::plan);
  CHECK_FALSE(contains(tube, {0, 0.1}));
  CHECK(contains(tube, {0.75, 0}));
}

TEST_CASE("overlap: crossing bars, nested, touching, apart") {
  const auto bar = [](double w, double h, double x, double y) {
    return moved(outline("plate", {{"width", w}, {"height", h}}), 0, {x, y});
  };
  const double tolerance = 1e-9;
  // Thin and long: no corner of one lies in the other.
  CHECK(overlap(bar(0.06, 0.0005, 0, 0), bar(0.0005, 0.06, 0.0101, 0),
                tolerance));
  CHECK(overlap(bar(1, 1, 0, 0), bar(0.1, 0.1, 0.2, 0.2), tolerance));
  CHECK(overlap(bar(1, 1, 0, 0), bar(1, 1, 0, 0), tolerance));
  CHECK_FALSE(overlap(bar(1, 1, 0, 0), bar(1, 1, 1, 0), tolerance));
  CHECK_FALSE(overlap(bar(1, 1, 0, 0), bar(1, 1, 2, 0), tolerance));
  // A rod in the bore of an open tube lies inside its outer circle only.
  const Outline tube =
      outline("tube", {{"diameter", 2}, {"wall", 0.2}, {"open", 1}}, Cut::plan);
  const Outline rod = outline("rod", {{"diameter", 1}}, Cut::plan);
  CHECK_FALSE(overlap(tube, rod, tolerance));
  CHECK(overlap(tube, moved(rod, 0, {0.5, 0}), tolerance));
  CHECK(self_crossing({{{{{0, 0}, {1, 1}, 0, ""},
                         {{1, 1}, {1, 0}, 0, ""},
                         {{1, 0}, {0, 1}, 0, ""},
                         {{0, 1}, {0, 0}, 0, ""}}}},
                      tolerance)
            .has_value());
  CHECK_FALSE(self_crossing(tube, tolerance).has_value());
}

TEST_CASE("a gap is what a ruler measures, also between round things") {
  auto anode =
      solid(Role::anode, "anode.a", "rod", {{"diameter", 0.01}}, {0, 0});
  anode.side = GENERATE(Side::left, Side::right, Side::above, Side::below);
  anode.gap = 0.013;
  auto spec = tank_with(
      {solid(Role::part, "part", "rod", {{"diameter", 0.02}}, {0.05, 0.05}),
       anode});
  const Section s = build_section(spec);
  const Point apart = s.solids[1].spec.at - Point(0.05, 0.05);
  CHECK(apart.norm() == Approx(0.01 + 0.013 + 0.005).epsilon(1e-3));
  CHECK(distance(s.solids[0].outline, s.solids[1].outline) ==
        Approx(0.013).epsilon(1e-6));
}

TEST_CASE("a point on the chord of a hole's arcs is in the hole") {
  const Outline ring = outline(
      "tube", {{"diameter", 0.02}, {"wall", 0.002}, {"open", 1}}, Cut::plan);
  CHECK_FALSE(contains(ring, {0.001, 0}));
  CHECK_FALSE(contains(ring, {0, 0}));
  CHECK(contains(ring, {0.009, 0}));
  CHECK(contains(ring, {-0.009, 0}));
  CHECK_FALSE(contains(ring, {0.011, 0}));
}

TEST_CASE("solids in the wrong place are named, all of them") {
  const auto part = solid(Role::part, "part", "coin", token, {0.05, 0.05});
  CHECK(wrong_of(tank_with({part})).empty());
  CHECK(wrong_of(tank_with({part, solid(Role::anode, "anode.1", "plate", sheet,
                                        {0.051, 0.05})}))
            .find("part and anode.1 overlap: a short circuit") !=
        std::string::npos);
  CHECK(wrong_of(tank_with({part, solid(Role::anode, "anode.1", "plate", sheet,
                                        {0.05 + 0.002, 0.05})}))
            .find("short circuit") != std::string::npos);
  const std::string two = wrong_of(tank_with(
      {part, solid(Role::anode, "anode.1", "plate", sheet, {0.0, 0.05}),
       solid(Role::anode, "anode.2", "plate", sheet, {0.09, 0.2})}));
  CHECK(two.find("anode.1: reaches through") != std::string::npos);
  CHECK(two.find("anode.2: is wholly out of the liquid") != std::string::npos);
  // Sticking out of the liquid and standing flush with a wall are allowed.
  CHECK(wrong_of(tank_with({part, solid(Role::anode, "anode.1", "plate", sheet,
                                        {0.001, 0.09})}))
            .empty());
}

TEST_CASE("features too small for the tank are refused") {
  const auto part =
      solid(Role::part, "part", "coin",
            {{"diameter", 0.03}, {"thickness", 0.002}, {"edge_radius", 1e-7}},
            {0.05, 0.05});
  CHECK(wrong_of(tank_with({part})).find("feature") != std::string::npos);
}

TEST_CASE("a round tank has no upright planar section") {
  SectionSpec spec = tank_with({});
  spec.tank.shape = Tank::Shape::round;
  CHECK_THROWS_AS(build_section(spec), InputError);
}
