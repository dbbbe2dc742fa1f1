// The same set-up put in two ways gives the same figures. Two meshes, each
// within the tolerance asked for.
#include "bench_cases.hpp"
#include "mesh/outline.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

void check_alike(const tests::Solved& a, const tests::Solved& b,
                 double tolerance) {
  const solver::Spread& p = a.outcome.parts.at(0).current_density_spread;
  const solver::Spread& q = b.outcome.parts.at(0).current_density_spread;
  CHECK(p.mean == Approx(q.mean).epsilon(tolerance));
  CHECK(p.min == Approx(q.min).margin(tolerance * q.mean));
  CHECK(p.max == Approx(q.max).margin(tolerance * q.mean));
  CHECK(a.outcome.point.terminal_voltage ==
        Approx(b.outcome.point.terminal_voltage).epsilon(tolerance));
}

/// A sheet at the right of a box that is 0.1 m by 0.08 m.
solver::Case before_a_sheet(const mesh::Solid& part) {
  solver::Case c = tests::plan_box(0.1, 0.08, 20);
  c.section.solids = {
      part, tests::solid(Role::anode, "sheet", "plate",
                         {{"width", 0.002}, {"height", 0.05}}, {0.095, 0.04})};
  c.cathode.resistance.value = 2.6e-4;
  tests::add_anode(c, 1, 0);
  return c;
}

}  // namespace

TEST_CASE("a bracket from its file is the built-in bracket", "[property]") {
  const char* name = GENERATE("bracket.csv", "bracket.dxf", "bracket.step");
  CAPTURE(name);
  const Point at(0.04, 0.04);
  solver::Case c = before_a_sheet(tests::solid(Role::part, "part", "bracket",
                                               {{"leg_1", 0.04},
                                                {"leg_2", 0.03},
                                                {"thickness", 0.003},
                                                {"inside_radius", 0.002},
                                                {"outside_radius", 0.005}},
                                               at));
  c.accuracy.tolerance = 4e-4;
  c.supply.voltage.reset();
  c.supply.current = solver::Quantity{20, 0};
  auto from_file = c;
  const auto file =
      std::filesystem::path(THINSPOT_SOURCE_DIR) / "tests/data" / name;
  from_file.section.solids[0] =
      tests::drawn(Role::part, "part", mesh::read_outline(file, {}).outline);
  from_file.section.solids[0].at = at;
  check_alike(tests::solved(c), tests::solved(from_file), 1e-3);
}

TEST_CASE("a tank drawn as a rectangle is the box", "[property]") {
  solver::Case c = before_a_sheet(tests::solid(
      Role::part, "part", "rod", {{"diameter", 0.02}}, {0.03, 0.04}));
  auto drawn = c;
  drawn.section.tank.shape = mesh::Tank::Shape::outline;
  drawn.section.tank.drawn = {{{{{0, 0}, {0.1, 0}, 0, ""},
                                {{0.1, 0}, {0.1, 0.08}, 0, ""},
                                {{0.1, 0.08}, {0, 0.08}, 0, ""},
                                {{0, 0.08}, {0, 0}, 0, ""}}}};
  check_alike(tests::solved(c), tests::solved(drawn), 2 * c.accuracy.tolerance);
}

TEST_CASE("lacquer does what a shield in its place does", "[property]") {
  // The lacquered millimetre of the plate is made of plastic instead: the same
  // liquid, the same bare metal.
  const double left = 0.03, width = 0.006, plastic = 0.001, height = 0.03;
  const double low = 0.04 - height / 2, high = 0.04 + height / 2;
  solver::Case lacquer = before_a_sheet(tests::solid(
      Role::part, "part", "plate", {{"width", width}, {"height", height}},
      {left + width / 2, 0.04}));
  mesh::Mask mask;
  mask.key = "mask.back";
  mask.on = "part";
  mask.between = {Point(left + plastic, high), Point(left + plastic, low)};
  lacquer.section.masks = {mask};
  solver::Case shield = before_a_sheet(
      tests::solid(Role::part, "part", "plate",
                   {{"width", width - plastic}, {"height", height}},
                   {left + (width + plastic) / 2, 0.04}));
  shield.section.solids.push_back(tests::solid(
      Role::shield, "back", "plate", {{"width", plastic}, {"height", height}},
      {left + plastic / 2, 0.04}));
  const auto a = tests::solved(lacquer), b = tests::solved(shield);
  check_alike(a, b, 2 * lacquer.accuracy.tolerance);
  // Only bare metal counts as wetted.
  CHECK(a.model.scale.part_area ==
        Approx(height + 2 * (width - plastic)).epsilon(1e-9));
  CHECK(tests::mean_between(a, {left, high - 1e-4}, {left, low + 1e-4}) == 0);
}

TEST_CASE("half dipped is half of its image in the level", "[property]") {
  const double level = 0.05, dip = 0.03;
  solver::Case upright = tests::plan_box(0.1, 0.09, 20);
  upright.section.cut = mesh::Cut::side;
  upright.section.tank.level = level;
  const auto plates = [&](double high, double low, double middle) {
    return std::vector<mesh::Solid>{
        tests::solid(Role::part, "part", "plate",
                     {{"width", 0.004}, {"height", high}}, {0.03, middle}),
        tests::solid(Role::anode, "sheet", "plate",
                     {{"width", 0.002}, {"height", low}}, {0.09, middle})};
  };
  // Both stick out by as much as they are dipped in.
  upright.section.solids = plates(2 * dip, 2 * dip, level);
  upright.cathode.resistance.value = 2.6e-4;
  tests::add_anode(upright, 1, 0);
  auto cut = upright;  // and cut off at the level
  cut.section.cut = mesh::Cut::plan;
  cut.section.tank.height = level;
  cut.section.solids = plates(dip, dip, level - dip / 2);
  auto image = upright;
  image.section.cut = mesh::Cut::plan;
  image.section.tank.height = 2 * level;
  const auto dipped = tests::solved(upright);
  const double tolerance = 2 * upright.accuracy.tolerance;
  check_alike(dipped, tests::solved(cut), tolerance);
  const auto whole = tests::solved(image);
  check_alike(dipped, whole, tolerance);
  CHECK(tests::current_of(whole, 0) ==
        Approx(2 * tests::current_of(dipped, 0)).epsilon(tolerance));
}

TEST_CASE("a clip over the part is metal of the same piece", "[property]") {
  const double low = 0.02, high = 0.05, top = 0.06, into = 0.002;
  solver::Case clipped = before_a_sheet(
      tests::drawn(Role::part, "part",
                   std::vector<Point>{
                       {0.03, low}, {0.04, low}, {0.04, high}, {0.03, high}}));
  clipped.section.solids.push_back(
      tests::drawn(Role::clip, "clip",
                   std::vector<Point>{{0.034, high - into},
                                      {0.036, high - into},
                                      {0.036, top},
                                      {0.034, top}}));
  clipped.clips.push_back({"clip", {2}, {0, 0}});
  const auto apart = tests::solved(clipped);
  const auto one = tests::solved(
      before_a_sheet(tests::drawn(Role::part, "part",
                                  std::vector<Point>{{0.03, low},
                                                     {0.04, low},
                                                     {0.04, high},
                                                     {0.036, high},
                                                     {0.036, top},
                                                     {0.034, top},
                                                     {0.034, high},
                                                     {0.03, high}})));
  CHECK(tests::current_of(apart, 0) + tests::current_of(apart, 2) ==
        Approx(tests::current_of(one, 0))
            .epsilon(2 * clipped.accuracy.tolerance));
  CHECK(tests::current_of(apart, 2) > 0.1 * tests::current_of(apart, 0));
}
