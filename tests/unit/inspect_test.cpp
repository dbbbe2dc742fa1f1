#include "solver/inspect.hpp"

#include "io/library_metals_to_plate.hpp"
#include "mesh/errors.hpp"
#include "tests/verification/bench_cases.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

using namespace thinspot;
using mesh::Role;
using solver::Finding;
using solver::Inspection;
using solver::Look;
using solver::Quantity;
using tests::solid;
using tests::token;

namespace {

constexpr double pi = std::numbers::pi;

/// A set-up that nothing is wrong with.
solver::Case sound() {
  solver::Case c = token();
  c.part_metal = "brass";
  c.base_metals = io::base_metals();
  c.wires = {{"wire", 0.8e-3, 0.02, false}};
  c.target.thickness = 10e-6;
  c.supply.voltage_limit = 6;
  return c;
}

const Finding* found(const Inspection& i, Look look) {
  const auto hit =
      std::find_if(i.findings.begin(), i.findings.end(),
                   [&](const Finding& f) { return f.look == look; });
  return hit == i.findings.end() ? nullptr : &*hit;
}

/// The one finding that a change to the sound set-up makes.
Finding only(const std::function<void(solver::Case&)>& change) {
  solver::Case c = sound();
  change(c);
  const Inspection i = solver::inspect(c);
  for (const Finding& f : i.findings)
    UNSCOPED_INFO("look " << static_cast<int>(f.look) << " " << f.solid << " "
                          << f.face << " " << f.value);
  REQUIRE(i.findings.size() == 1);
  return i.findings.front();
}

void put_part(solver::Case& c, double x, double y) {
  c.section.solids[0].at = {x, y};
}

}  // namespace

TEST_CASE("a sound set-up raises no brow") {
  const Inspection i = solver::inspect(sound());
  for (const Finding& f : i.findings)
    UNSCOPED_INFO("look " << static_cast<int>(f.look));
  CHECK(i.findings.empty());
  CHECK(i.notes.empty());
  REQUIRE(i.hanging);
  CHECK(i.hanging->pools.empty());
}

TEST_CASE("areas, current and time of the token") {
  const Inspection i = solver::inspect(sound());
  // Straight faces of radius 14.7 mm, rim of 1.8 mm, quarter rounds of 0.3 mm
  // turned about the axis: 2 pi R^2 + 2 pi R w + 2 * 2 pi e (pi/2 f + e).
  const double big = 0.015, e = 3e-4, flat = big - e;
  const double real = 2 * pi * flat * flat + 2 * pi * big * (0.0024 - 2 * e) +
                      4 * pi * e * (flat * pi / 2 + e);
  CHECK(i.areas.part == Approx(real).epsilon(1e-9));
  CHECK(i.depth_from == solver::DepthFrom::shape);
  const double wire = pi * 0.8e-3 * 0.02;
  CHECK(i.areas.wires == Approx(wire));
  // A bare wire counts twice.
  const double density = 0.33 / (real + 2 * wire);
  CHECK(i.cell.density == Approx(density));
  // Copper: M/(2 F rho), by hand.
  const double growth = 0.063546 / (2 * 96485.33212 * 8960) * density;
  CHECK(i.mean_thickness == Approx(2400 * growth));
  CHECK(i.time_needed.value() == Approx(10e-6 / growth));
  // Sheet: 70 by 2 mm, all around.
  CHECK(i.areas.anodes == Approx(0.144 * i.depth));
  CHECK(i.anode_ratio == Approx(0.144 * i.depth / (real + wire)));
}

TEST_CASE("the usual current: the case's range, a handbook's, or none") {
  solver::Case c = sound();
  // 15 to 50 A/ft2 for copper; a foot is 0.3048 m.
  Inspection i = solver::inspect(c);
  REQUIRE(i.usual);
  CHECK(i.usual->low == Approx(15 / (0.3048 * 0.3048)));
  CHECK(i.usual->high == Approx(50 / (0.3048 * 0.3048)));
  CHECK(i.usual_current.low == Approx(i.usual->low * i.areas.drawing()));
  c.target.working_range = {{50, 400}};
  i = solver::inspect(c);
  CHECK(i.usual->low == 50);
  CHECK(i.usual->high == 400);
  c.target.working_range.reset();
  c.solution.limiting_current_density = solver::Quantity{500, 0};
  CHECK(solver::inspect(c).usual->high == Approx(0.4 * 500));
  // Copper sulfate without acid conducts a tenth: the range is another's.
  c.solution.conductivity.value = 2;
  CHECK_FALSE(solver::inspect(c).usual);
  c.solution.conductivity.value = 20;
  c.solution.metal.name = "unheard of";
  CHECK_FALSE(solver::inspect(c).usual);
}

TEST_CASE("findings on currents") {
  const auto current = [](double amperes) {
    return [=](solver::Case& c) { c.supply.current = Quantity{amperes, 0}; };
  };
  CHECK(only([](solver::Case& c) {
          c.target.burning_current_density = 150;
        }).look == Look::above_burning);
  CHECK(only(current(1.05)).look == Look::above_range);
  CHECK(only([](solver::Case& c) {
          c.solution.limiting_current_density = solver::Quantity{430, 0};
          c.target.working_range = {{50, 400}};
        }).look == Look::near_limiting);
  CHECK(only([](solver::Case& c) {
          c.supply.current = Quantity{0.2, 0};
          c.steps[0].duration.value = 7200;
        }).look == Look::below_range);
  CHECK(only([](solver::Case& c) { c.supply.voltage_limit = 0.1; }).look ==
        Look::over_voltage_limit);
  const Finding slow =
      only([](solver::Case& c) { c.steps[0].duration.value = 600; });
  CHECK(slow.look == Look::time_too_short);
  CHECK(slow.limit == 600);
}

TEST_CASE("findings on areas and metals") {
  CHECK(only([](solver::Case& c) {
          c.section.solids[1].sizes["height"] = 0.028;
        }).look == Look::small_anodes);
  CHECK(only([](solver::Case& c) { c.part_metal = "mild steel"; }).look ==
        Look::immersion_deposit);
  CHECK(only([](solver::Case& c) { c.target.class_metal = "zinc"; }).look ==
        Look::other_class_metal);
  CHECK(only([](solver::Case& c) { c.anodes[0].metal = "nickel"; }).look ==
        Look::other_anode_metal);
  const Finding lost =
      only([](solver::Case& c) { c.anodes[0].soluble = false; });
  CHECK(lost.look == Look::metal_from_solution);
  // Faraday: M I t / (2 F), the wire's share included.
  CHECK(lost.value == Approx(0.063546 * 0.33 * 2400 / (2 * 96485.33212)));
  CHECK(only([](solver::Case& c) {
          c.wires[0].diameter = 3e-3;
          c.supply.current = Quantity{0.4, 0};
        }).look == Look::much_wire);
  CHECK(only([](solver::Case& c) { c.wires.clear(); }).look ==
        Look::nothing_holds);
  const Finding drawn = only([](solver::Case& c) {
    c.depth = 0.03;
    c.wires = {{"wire", 0.8e-3, 0.02, false}};
  });
  CHECK(drawn.look == Look::area_disagrees);
  CHECK(drawn.value > 1.15 * drawn.limit);
}

TEST_CASE("findings on places") {
  CHECK(only([](solver::Case& c) {
          put_part(c, 0.0888, 0.05);
          c.section.solids[1].at.x() = 0.05;
        }).look == Look::touches_wall);
  const Finding near = only([](solver::Case& c) {
    c.section.solids[1].at.x() = 0.045 - 0.0012 - 0.001 - 0.002;
  });
  CHECK(near.look == Look::anode_too_near);
  CHECK(near.value == Approx(0.002));
  CHECK(near.limit == Approx(0.0024));
  const Finding high = only([](solver::Case& c) {
    put_part(c, 0.045, 0.079);
    c.section.solids[1].at.y() = 0.064;
  });
  CHECK(high.look == Look::near_surface);
  CHECK(high.value == Approx(0.006));
  const Finding low = only([](solver::Case& c) {
    put_part(c, 0.045, 0.022);
    c.section.solids[1].at.y() = 0.037;
  });
  CHECK(low.look == Look::near_floor);
  CHECK(low.value == Approx(0.007));
  const Finding brief = only([](solver::Case& c) {
    c.section.solids[1].at.y() = 0.057;
    put_part(c, 0.045, 0.030);
  });
  CHECK(brief.look == Look::anode_too_short);
  // The sheet begins 22 mm up, the token reaches from 15 to 45.
  CHECK(brief.value == Approx(23.0 / 30));
}

TEST_CASE("a clip holds only what it touches") {
  const auto with_clip = [](double gap) {
    solver::Case c = sound();
    c.wires.clear();
    c.section.solids.push_back(solid(Role::clip, "hook", "plate",
                                     {{"width", 0.001}, {"height", 0.02}},
                                     {0.045, 0.065 + gap + 0.01}));
    c.clips = {{"hook", {2}, {}}};
    return solver::inspect(c);
  };
  const Inspection apart = with_clip(0.003);
  const Finding* f = found(apart, Look::clip_apart);
  REQUIRE(f);
  CHECK(f->value == Approx(0.003));
  const Inspection touching = with_clip(0);
  CHECK(found(touching, Look::clip_apart) == nullptr);
  CHECK(found(touching, Look::nothing_holds) == nullptr);
  // Both sides and the upper end, without what stands on the rim.
  CHECK(touching.areas.clips == Approx((2 * 0.02 + 0.001) * touching.depth));
}

TEST_CASE("a clip drawn in a section is a wall as deep as that") {
  const auto with_clip = [](mesh::Cut cut, const std::string& shape) {
    solver::Case c = sound();
    c.wires.clear();
    c.section.cut = cut;
    c.section.solids.push_back(
        solid(Role::clip, "hook", shape,
              {{"width", 0.001}, {"height", 0.02}, {"diameter", 0.002}},
              {0.045, shape == "rod" ? 0.066 : 0.075}));
    c.clips = {{"hook", {2}, {}}};
    return c;
  };
  solver::Case c = with_clip(mesh::Cut::side, "plate");
  const Inspection side = solver::inspect(c);
  const Finding* f = found(side, Look::wall_for_a_clip);
  REQUIRE(f);
  CHECK(f->solid == "hook");
  CHECK(f->value == Approx(side.depth));
  CHECK(f->limit == Approx(0.001));
  // As deep as it is thick it is what it is.
  c.depth = 0.002;
  CHECK(!found(solver::inspect(c), Look::wall_for_a_clip));
  // From above an upright wire is a dot, a strip still a wall.
  c = with_clip(mesh::Cut::plan, "rod");
  c.depth = 0.05;
  CHECK(!found(solver::inspect(c), Look::wall_for_a_clip));
  c = with_clip(mesh::Cut::plan, "plate");
  c.depth = 0.05;
  CHECK(found(solver::inspect(c), Look::wall_for_a_clip));
}

TEST_CASE("a part that turns in a side view turns as a wheel") {
  const auto turned = [](double radians) {
    solver::Step s;
    s.duration.value = 600;
    s.motion.turn = radians;
    return s;
  };
  solver::Case c = sound();
  c.steps = {turned(0), turned(pi)};
  CHECK(!found(solver::inspect(c), Look::turns_as_a_wheel));
  c.steps = {turned(0), turned(0.5 * pi), turned(pi)};
  CHECK(found(solver::inspect(c), Look::turns_as_a_wheel));
  c.steps = {turned(0)};
  c.steps[0].turning = solver::Turning{4, 0, 0};
  CHECK(found(solver::inspect(c), Look::turns_as_a_wheel));
  c.section.cut = mesh::Cut::plan;
  c.depth = 0.05;
  CHECK(!found(solver::inspect(c), Look::turns_as_a_wheel));
}

TEST_CASE("half dipped: allowed, and how much is out") {
  solver::Case c = sound();
  c.section.solids[0] =
      solid(Role::part, "part", "plate", {{"width", 0.004}, {"height", 0.06}},
            {0.045, 0.09});
  c.depth = 0.03;
  c.supply.current = Quantity{0.33, 0};
  const Inspection i = solver::inspect(c);
  const Finding* f = found(i, Look::half_dipped);
  REQUIRE(f);
  // 20 of 60 mm out of the liquid on both sides, and the upper edge.
  CHECK(f->value == Approx((2 * 20 + 4.0) / (2 * 60 + 2 * 4)).epsilon(1e-3));
  CHECK(i.areas.part == Approx((2 * 0.04 + 0.004) * 0.03));
  // What sticks out is held there.
  c.wires.clear();
  CHECK(!found(solver::inspect(c), Look::nothing_holds));
}

TEST_CASE("a shield shades from less than its own width away") {
  const auto with_shield = [](double gap) {
    solver::Case c = sound();
    c.section.solids.push_back(solid(Role::shield, "board", "plate",
                                     {{"width", 0.002}, {"height", 0.02}},
                                     {0.045 - 0.0012 - gap - 0.001, 0.05}));
    return solver::inspect(c);
  };
  const Inspection close = with_shield(0.005);
  const Finding* f = found(close, Look::shadowed);
  REQUIRE(f);
  CHECK(f->solid == "board");
  CHECK(f->face == "left");
  CHECK(found(with_shield(0.030), Look::shadowed) == nullptr);
}

TEST_CASE("share of the view is that of an infinitely long strip") {
  // Straight ahead: sin(atan(w / 2 d)).
  const solver::SurfaceSample here{{0, 0}, {1, 0}, 1, nullptr};
  for (double d : {0.5, 1.0, 2.0, 5.0}) {
    const mesh::Loop strip{{{d, -0.5}, {d, 0.5}, 0, ""}};
    CHECK(solver::share_of_view(here, strip) ==
          Approx(std::sin(std::atan(0.5 / d))));
  }
  const mesh::Loop behind{{{-1, -0.5}, {-1, 0.5}, 0, ""}};
  CHECK(solver::share_of_view(here, behind) == 0);
}

TEST_CASE("a target face out of the liquid is found, an unknown one refused") {
  solver::Case c = sound();
  c.section.solids[0].at.y() = 0.093;
  c.target.faces = {"left", "upper rim"};
  const Inspection i = solver::inspect(c);
  std::vector<std::string> faces;
  for (const Finding& f : i.findings)
    if (f.look == Look::face_not_wetted) faces.push_back(f.face);
  CHECK(faces == std::vector<std::string>{"left", "upper rim"});
  CHECK(found(i, Look::face_not_wetted)->value < 1);
  c.target.faces = {"top"};
  CHECK_THROWS_AS(solver::inspect(c), InputError);
}

TEST_CASE("what a solve refuses a check refuses") {
  solver::Case c = sound();
  c.section.solids[1].at = c.section.solids[0].at;
  CHECK_THROWS_AS(solver::inspect(c), InputError);
  c = sound();
  c.section.solids.erase(c.section.solids.begin() + 1);
  c.anodes.clear();
  CHECK_THROWS_AS(solver::inspect(c), InputError);
}
