#include "solver/step_case.hpp"

#include "mesh/errors.hpp"
#include "mesh/section.hpp"
#include "tests/solids.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

/// A bracket, two anodes, two clips, a mask on the first anode.
solver::Case set_up() {
  solver::Case c;
  c.section.tank = {mesh::Tank::Shape::box, 0.1, 0.1, 0.09};
  const auto plate = [](Role role, const char* name, double x, double y) {
    return tests::solid(role, name, "plate",
                        {{"width", 0.002}, {"height", 0.02}}, {x, y});
  };
  c.section.solids = {plate(Role::anode, "near", 0.01, 0.05),
                      plate(Role::part, "part", 0.05, 0.05),
                      plate(Role::clip, "top", 0.05, 0.07),
                      plate(Role::anode, "far", 0.09, 0.05),
                      plate(Role::clip, "low", 0.05, 0.03)};
  c.anodes.resize(2);
  c.anodes[0].name = "near";
  c.anodes[0].solid = 0;
  c.anodes[0].polarization.resistance.value = 1e-4;
  c.anodes[0].bag_resistance.value = 2e-4;
  c.anodes[1].name = "far";
  c.anodes[1].solid = 3;
  c.clips = {{"top", {2}, {}}, {"low", {4}, {}}};
  mesh::Mask mask;
  mask.on = c.section.solids[0].key;
  mask.faces = {"left"};
  c.section.masks = {mask};
  c.steps = {{{600, 0}}};
  return c;
}

std::vector<std::string> names(const solver::Case& c) {
  std::vector<std::string> all;
  for (const mesh::Solid& s : c.section.solids) all.push_back(s.name);
  return all;
}

}  // namespace

TEST_CASE("a step that changes nothing is the case itself, that long") {
  const solver::Case c = set_up();
  const solver::Case alone = solver::case_of_step(c, 0);
  CHECK(names(alone) == names(c));
  CHECK(alone.section.motion == mesh::Motion{});
  CHECK(solver::total_duration(alone) == 600);
}

TEST_CASE("an anode that is off floats with its bag, one lifted is gone") {
  solver::Case c = set_up();
  c.steps[0].off = {"near"};
  const solver::Case off = solver::case_of_step(c, 0);
  REQUIRE(off.anodes.size() == 1);
  CHECK(off.anodes[0].name == "far");
  REQUIRE(off.floating.size() == 1);
  CHECK(off.floating[0].resistance.value == Approx(3e-4));
  CHECK(off.section.solids[off.floating[0].solid].role == Role::floating);
  CHECK(off.section.masks.size() == 1);

  c.steps[0].off.clear();
  c.steps[0].lifted = {"near"};
  const solver::Case lifted = solver::case_of_step(c, 0);
  CHECK(names(lifted) == std::vector<std::string>{"part", "top", "far", "low"});
  CHECK(lifted.section.solids[lifted.anodes[0].solid].name == "far");
  CHECK(lifted.section.solids[lifted.clips[1].solids[0]].name == "low");
  CHECK(lifted.section.masks.empty());
}

TEST_CASE("clips that a step does not name are not in the tank") {
  solver::Case c = set_up();
  c.steps[0].clips = std::vector<std::string>{"low"};
  const solver::Case alone = solver::case_of_step(c, 0);
  CHECK(names(alone) == std::vector<std::string>{"near", "part", "far", "low"});
  REQUIRE(alone.clips.size() == 1);
  CHECK(alone.section.solids[alone.clips[0].solids[0]].name == "low");
  CHECK(alone.section.solids[alone.anodes[1].solid].name == "far");
}

TEST_CASE("a moved part keeps its material: places go with it") {
  mesh::SectionSpec spec;
  spec.tank = {mesh::Tank::Shape::box, 0.1, 0.1, 0.09};
  spec.solids = {tests::bracket(0.004, {0.05, 0.05})};
  // About its middle, and about where a wire may be hooked in.
  const Point axis = GENERATE(Point(0, 0), Point(0.004, -0.003));
  spec.solids[0].axis = axis;
  mesh::Mask mask;
  mask.key = "mask.1";
  mask.on = spec.solids[0].key;
  mask.between = {{Point(0.06, 0.03), Point(0.07, 0.041)}};
  spec.masks = {mask};
  const mesh::Outline drawn = mesh::build_section(spec).solids[0].outline;
  spec.motion = {true, std::numbers::pi / 3};
  const mesh::PlacedSolid moved = mesh::build_section(spec).solids[0];
  CHECK(moved.flipped);
  CHECK(mesh::perimeter(moved.outline) == Approx(mesh::perimeter(drawn)));
  CHECK(mesh::area(moved.outline) == Approx(mesh::area(drawn)));
  REQUIRE(moved.outline.loops[0].size() == drawn.loops[0].size());
  bool any_masked = false;
  for (int k = 0; k < static_cast<int>(drawn.loops[0].size()); ++k)
    for (double t : {0.0, 0.3, 1.0}) {
      const mesh::Place place = mesh::flipped({0, k, t}, drawn);
      const mesh::Curve& there = mesh::curve_of(moved.outline, 0, place.curve);
      const mesh::Curve& here = mesh::curve_of(drawn, 0, k);
      CHECK(there.face == here.face);
      CHECK(there.masked == here.masked);
      any_masked = any_masked || here.masked;
      // Turned by a third of half a turn, then mirrored at its axis' x.
      const Point about = Point(0.05, 0.05) + axis;
      const Point v = mesh::point_at(here, t) - about;
      const double c = 0.5, s = std::sqrt(3) / 2;
      const Point expected =
          about + Point(-(c * v.x() - s * v.y()), s * v.x() + c * v.y());
      CHECK((mesh::point_at(there, place.t) - expected).norm() < 1e-12);
    }
  CHECK(any_masked);
}
