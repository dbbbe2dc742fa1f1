// A ball inside a hollow ball, axisymmetric:
//   R = (1/r1 - 1/r2)/(4 pi kappa) + R1/(4 pi r1^2) + R2/(4 pi r2^2)
// Source: potential of a point, Carslaw and Jaeger, Conduction of Heat in
// Solids, 1959, chapter IX (from memory), with the laws in series. Orders as
// for concentric cylinders.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double r1 = 0.01, r2 = 0.02, wall = 0.004, kappa = 5;

/// Counter-clockwise around the origin.
mesh::Loop circle(double radius) {
  const Point right(radius, 0), left(-radius, 0);
  return {{right, left, 1, "outline"}, {left, right, 1, "outline"}};
}

mesh::Loop backwards(mesh::Loop loop) {
  std::reverse(loop.begin(), loop.end());
  for (mesh::Curve& c : loop) {
    std::swap(c.from, c.to);
    c.bulge = -c.bulge;
  }
  return loop;
}

solver::Case ball_in_ball(double cathode, double anode) {
  const double tank = 2.4 * (r2 + wall);
  solver::Case c = tests::plan_box(tank, tank, kappa);
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank.level = tank;
  c.depth.reset();
  const mesh::Outline shell{{circle(r2 + wall), backwards(circle(r2))}};
  c.section.solids = {tests::drawn(Role::part, "ball", {{circle(r1)}}),
                      tests::drawn(Role::anode, "shell", shell)};
  for (mesh::Solid& s : c.section.solids) s.at = {0, tank / 2};
  c.cathode.resistance.value = cathode;
  tests::add_anode(c, 1, anode);
  // Near the pole, where the axis leaves next to no surface.
  c.probes = {{"", {0.02 * r1, tank / 2 + r1}}};
  return c;
}

}  // namespace

TEST_CASE("concentric spheres", "[exact][order][table]") {
  const bool law = GENERATE(false, true);
  const double cathode = law ? 1e-3 : 0, anode = law ? 5e-4 : 0;
  const double exact =
      4 * pi /
      ((1 / r1 - 1 / r2) / kappa + cathode / (r1 * r1) + anode / (r2 * r2));
  const double density = exact / (4 * pi * r1 * r1);
  const solver::Case c = ball_in_ball(cathode, anode);
  const auto meshes = tests::family(c, 3);
  const auto own = tests::figures_of(tests::certified(c));
  const char* name = "spheres, concentric";
  const char* source = "Carslaw and Jaeger 1959, ch. IX (from memory)";
  const char* with = law ? "polarization" : "fixed potential";
  tests::record(name, source, fmt::format("current, {} [A]", with), exact,
                own.current,
                tests::order_on(meshes, 4, [&](const tests::Solved& s) {
                  return tests::total_current(s) - exact;
                }));
  const auto order =
      tests::order_on(meshes, law ? 3 : 2, [&](const tests::Solved& s) {
        return tests::density_error(s, [&](const Point&) { return density; });
      });
  tests::record(name, source, fmt::format("i near the pole, {} [A/m2]", with),
                density, own.probes[0], order);
}
