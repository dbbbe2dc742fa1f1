// A 2:1 ellipse that turns in a round tank, about the tank's axis, before an
// anode in the tank's wall. Where the anode's current is the same everywhere on
// it and does not follow the angle, all angles together give what one solve
// gives whose current comes evenly from all around: by symmetry every angle of
// the part sees the anode for the same time, and the problem is linear. Far
// from the walls that is the ellipse's natural distribution; walls at ten times
// its half axis reflect (1/10)^4 of its unevenness.
//
// Values with a linear law, conductivity times resistance half of the small
// axis: ends 1.268966576, flat 0.851597092 of the mean, from a boundary
// integral solve with 1e-9 (computed for this project).
#include "bench_cases.hpp"
#include "mesh/arc_fit.hpp"
#include "solved.hpp"
#include "solver/schedule.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;

mesh::Outline ellipse(double a, double b) {
  return {{mesh::fit_arcs(
      {[=](double t) { return Point(a * std::cos(t), b * std::sin(t)); },
       [=](double t) { return Point(-a * std::sin(t), b * std::cos(t)); },
       {0, pi / 2, pi, 1.5 * pi, 2 * pi}},
      2000)}};
}

/// A piece of a ring about the origin, 2 mm thick, between two angles.
mesh::Outline of_ring(double radius, double from, double to) {
  const auto at = [](double r, double a) {
    return Point(r * std::cos(a), r * std::sin(a));
  };
  const double outer = radius + 0.002, middle = 0.5 * (from + to);
  const double bulge = std::tan((to - from) / 8);
  const Point low = at(radius, from), high = at(radius, to);
  return {{{{low, at(outer, from), 0, "end"},
            {at(outer, from), at(outer, middle), bulge, "outside"},
            {at(outer, middle), at(outer, to), bulge, "outside"},
            {at(outer, to), high, 0, "end"},
            {high, at(radius, middle), -bulge, "inside"},
            {at(radius, middle), low, -bulge, "inside"}}}};
}

mesh::Solid in_ring(Role role, const std::string& name,
                    const mesh::Outline& outline, const Point& centre) {
  mesh::Solid s = tests::drawn(role, name, outline);
  s.at += centre;
  return s;
}

solver::Case turning_ellipse() {
  const double a = 0.01, b = 0.005, wall = 0.1;
  solver::Case c;
  c.section.cut = mesh::Cut::plan;
  // A round tank within a box: its wall is a shield, but for the anode.
  const Point centre(0.11, 0.11);
  c.section.tank = {mesh::Tank::Shape::box, 0.22, 0.22, 0};
  c.depth = 0.1;
  mesh::Solid part = tests::drawn(Role::part, "part", ellipse(a, b));
  part.at = centre;
  c.section.solids = {
      part, in_ring(Role::anode, "anode", of_ring(wall, -0.3, 0.3), centre),
      in_ring(Role::shield, "wall", of_ring(wall, 0.3, 2 * pi - 0.3), centre)};
  c.solution.metal = tests::copper();
  c.solution.conductivity.value = 20;
  c.cathode.resistance.value = 0.5 * b / 20;
  // So large that the current is even on the anode to a few millionths.
  tests::add_anode(c, 1, 1e3);
  c.supply.current = solver::Quantity{1, 0};
  c.steps = {{{3600, 0}}};
  c.steps.front().turning = solver::Turning{0, 0, 0.1};
  return c;
}

}  // namespace

TEST_CASE("an ellipse that turns has its natural distribution",
          "[exact][table]") {
  const solver::Case c = turning_ellipse();
  const solver::Schedule s = solver::run_schedule(c);
  REQUIRE(s.turns.size() == 1);
  const solver::Spread& t = s.spreads[0].thickness;
  const auto& e = s.errors[0];
  const auto share = [&](double value, double bar) {
    return tests::Figure{value / t.mean,
                         (bar + value / t.mean * e.mean) / t.mean};
  };
  const tests::Figure end = share(t.max, e.largest),
                      flat = share(t.min, e.least);
  const std::string name = "2:1 ellipse that turns in a round tank";
  const std::string source = "boundary integral solve for this project";
  // The walls' reflection, and over the averaging length at the ends, where the
  // radius is a quarter of the half axis, 5e-5.
  const double allowed = 1.5e-4;
  CHECK(std::abs(end.value - 1.268966576) <= end.bar + allowed);
  CHECK(std::abs(flat.value - 0.851597092) <= flat.bar + allowed);
  CHECK(e.largest <= 2 * c.accuracy.tolerance * t.mean);
  tests::record(name, source, "thickness at the ends over the mean",
                1.268966576, {end.value, end.bar + allowed});
  tests::record(name, source, "thickness on the flat over the mean",
                0.851597092, {flat.value, flat.bar + allowed});
}
