// What a ruler needs to stand everything where it is drawn.
#include "viz/placings.hpp"

#include "tests/unit/picture_checks.hpp"
#include "tests/unit/synthetic_result.hpp"
#include "viz/bench_card.hpp"

#include <catch2/catch.hpp>

#include <numbers>

using namespace thinspot;
using namespace thinspot::tests;
using mesh::Point;
using mesh::Role;

namespace {

/// The bar of 2.4 mm x 30 mm about (45, 50) mm, liquid 100 mm deep in a tank
/// 90 mm wide; sheets of 60 mm about the same height.
std::string words(const Synthetic& wanted) {
  const solver::Result r = synthetic_result(wanted);
  const viz::Scene scene = viz::scene_of(r);
  return viz::in_words(scene, viz::placings(scene));
}

std::string card(const solver::Result& r) {
  viz::CardWords said;
  said.title = r.used.title;
  said.steps = {"Set 0.33 A."};
  return viz::bench_card(r, said);
}

mesh::Solid turned(mesh::Solid solid, double degrees) {
  solid.turn = degrees * std::numbers::pi / 180;
  return solid;
}

}  // namespace

TEST_CASE("the part is measured from the wall that a ruler reaches") {
  // The sheet stands left of it: 45 + 1.2 mm from 90 mm leave 43.8 mm.
  CHECK(words({}) ==
        "part: 35 mm below the surface, 43.8 mm from the right wall; "
        "sheet: top 20 mm below the surface");
}

TEST_CASE("between two sheets one of them is measured, both hang alike") {
  const std::string said = words({.anodes = {"left", "right"}});
  CHECK(said.starts_with("part: 35 mm below the surface; "));
  CHECK(said.find("from the left wall") != std::string::npos);
  CHECK(said.ends_with("; left and right: top 20 mm below the surface"));
}

TEST_CASE("a shield low in the tank is measured from the floor") {
  const Synthetic wanted{
      .more = {plate("guard", Role::shield, {2e-3, 20e-3}, {60e-3, 22e-3})}};
  CHECK(words(wanted).ends_with("guard: foot 12 mm above the floor"));
}

TEST_CASE("a thief above the part follows from it where it is centred") {
  Synthetic wanted{
      .more = {plate("bar", Role::thief, {2e-3, 2e-3}, {45e-3, 70e-3})}};
  CHECK(words(wanted).find("bar") == std::string::npos);
  wanted.more[0].at.x() = 45.7e-3;
  CHECK(words(wanted).find("bar: 43.3 mm from the right wall") !=
        std::string::npos);
}

TEST_CASE("seen from above, what is beside the part has no second distance") {
  const std::string said = words({.cut = mesh::Cut::plan});
  CHECK(said.find("part: 43.8 mm from the right wall, ") == 0);
  CHECK((said.ends_with("from the front wall") ||
         said.ends_with("from the back wall")));
  CHECK(said.find("sheet") == std::string::npos);
}

TEST_CASE("a lean is counted from the nearer of upright and level") {
  const mesh::Solid bar = plate("p", Role::anode, {2e-3, 40e-3}, {0, 0});
  const auto lean = [&](double degrees) {
    const viz::Lean l = viz::lean_of(turned(bar, degrees), mesh::Cut::side);
    return std::pair(l.angle * 180 / std::numbers::pi, l.level);
  };
  CHECK(lean(0) == std::pair(0.0, false));
  CHECK(lean(10).first == Approx(10));
  CHECK(lean(-10).first == Approx(-10));
  CHECK(lean(190).first == Approx(10));
  CHECK_FALSE(lean(190).second);
  CHECK(lean(90) == std::pair(0.0, true));
  CHECK(lean(70).first == Approx(-20));
  CHECK(lean(70).second);
  mesh::Solid square = plate("s", Role::anode, {4e-3, 4e-3}, {0, 0});
  CHECK(viz::lean_of(turned(square, 30), mesh::Cut::side).angle == 0);
}

TEST_CASE("a tilted sheet is so in words and in the sketch") {
  const solver::Result r = synthetic_result(
      {.anodes = {},
       .more = {turned(
           plate("sheet", Role::anode, {2e-3, 60e-3}, {14e-3, 50e-3}), -12)}});
  const viz::Scene scene = viz::scene_of(r);
  CHECK(viz::in_words(scene, viz::placings(scene))
            .ends_with("tilted 12\u00B0, top to the right"));
  const std::string svg = card(r);
  CHECK(says(svg, "12\u00B0"));
  check_sheet(svg, 148, 210);
}

TEST_CASE("the sketch measures to the wall and down to the sheet") {
  const solver::Result r = synthetic_result();
  const std::string svg = card(r);
  for (const std::string text : {"43.8 mm", "20 mm", "Places: part: 35 mm"}) {
    INFO(text);
    CHECK(says(svg, text));
  }
}
