// Current at sharp edges and down narrow slots, without polarization.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <Eigen/QR>

#include <fmt/format.h>

#include <cmath>
#include <numbers>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

/// A part in the middle of a ring that is all anode, seen from above.
solver::Case in_a_ring(const mesh::Solid& part, double radius) {
  const double wall = 0.1 * radius, outer = radius + wall;
  const double tank = 1.1 * outer;
  solver::Case c = tests::plan_box(2 * tank, 0, 5);
  c.section.tank.shape = mesh::Tank::Shape::round;
  c.section.solids = {
      part, tests::solid(Role::anode, "ring", "tube",
                         {{"diameter", 2 * outer}, {"wall", wall}, {"open", 1}},
                         {tank, tank})};
  c.section.solids[0].at = {tank, tank};
  tests::add_anode(c, 1, 0);
  return c;
}

/// Least-squares slope of log(current density) over log(distance from an edge)
/// along a straight face. Averages over windows that grow with the distance:
/// of a power law they have its slope.
double slope(const tests::Solved& s, const Point& edge, const Point& along,
             double nearest, double farthest) {
  const int count = 12;
  Eigen::MatrixX2d a(count, 2);
  Eigen::VectorXd b(count);
  for (int k = 0; k < count; ++k) {
    const double r =
        nearest * std::pow(farthest / nearest, double(k) / (count - 1));
    a(k, 0) = 1;
    a(k, 1) = std::log(r);
    b(k) = std::log(
        tests::mean_between(s, edge + r / 1.1 * along, edge + r * 1.1 * along));
  }
  return a.colPivHouseholderQr().solve(b)(1);
}

}  // namespace

// Exponent pi/beta - 1 for an angle beta in the liquid: -1/3 at 270 degrees.
// Source: separation of variables in the wedge, Jackson, Classical
// Electrodynamics, 1962, section 2.11 (from memory). Over the whole side of a
// square bar between far electrodes, by its conformal map, current / mean =
//   0.762759763 in the middle, 0.845201652, 1.092988962, 1.361533337,
//   2.313199867 at 0.25, 0.1, 0.05, 0.01 sides from an edge.
// The ring at 25 half sides: its square share is (1/25)^4 = 3e-6 of it.
TEST_CASE("a square bar: the law of its edges and the whole side", "[exact]") {
  const double side = 0.02, length = GENERATE(0.0, 1e-8);
  CAPTURE(length);
  solver::Case c =
      in_a_ring(tests::solid(Role::part, "bar", "plate",
                             {{"width", side}, {"height", side}}, {0, 0}),
                12.5 * side);
  c.cathode.resistance.value = length / 5;
  c.accuracy.tolerance = 1e-4;
  c.accuracy.averaging_length = 1e-5;
  // Twice, as by a law that acts over less than an edge currents are quadratic
  // and swing: an order is lost.
  const auto s = tests::refined(tests::refined(tests::solved(c)));
  const Point middle = c.section.solids[0].at;
  const Point edge = middle + Point(side / 2, -side / 2), up(0, 1);
  // From a thousand times the length of polarization; up to where the next
  // term, (r/side)^(4/3) by symmetry, is a hundredth.
  CHECK(slope(s, edge, up, 1e-3 * side, 0.03 * side) ==
        Approx(-1.0 / 3).epsilon(0.05));
  const double mean = s.outcome.parts[0].current_density_spread.mean;
  const double expected[][2] = {{0.5, 0.762759763502},
                                {0.25, 0.845201651976},
                                {0.1, 1.09298896196},
                                {0.05, 1.36153333687},
                                {0.01, 2.3131998672}};
  for (const auto& [share, value] : expected) {
    CAPTURE(share);
    // Currents are linear on an edge, and edges grow by no more than 0.5 of
    // the way from the corner, halved once: of r^(-1/3) that misses
    // (1/3)(4/3) 0.25^2 / 12 = 2.4e-3; of r^(-1/3) over the window's width,
    // (1/3)(4/3) 0.1^2 / 24 = 2e-4.
    const double found = tests::mean_between(s, edge + 0.95 * share * side * up,
                                             edge + 1.05 * share * side * up) /
                         mean;
    CHECK(found == Approx(value).epsilon(2.6e-3 + c.accuracy.tolerance));
  }
}

// Resistance to the ring: ln(b/a)/(2 pi kappa), a the bar's capacity radius
//   Gamma(1/4)^2 / (4 pi^1.5) sides = 0.590170299508 sides
// (Polya and Szego, Isoperimetric Inequalities in Mathematical Physics, 1951,
// from memory), but for (a/b)^8 = 5e-11. Order of the current 2 lambda = 4/3,
// the corners being 270 degrees of liquid between metal.
TEST_CASE("a square bar in a ring: current and order",
          "[exact][order][table]") {
  const double side = 0.02, ring = 12.5 * side;
  solver::Case c =
      in_a_ring(tests::solid(Role::part, "bar", "plate",
                             {{"width", side}, {"height", side}}, {0, 0}),
                ring);
  c.accuracy.averaging_length = 1e-2 * side;
  const Point middle = c.section.solids[0].at;
  for (const double share : {0.5, 0.25, 0.1})
    c.probes.push_back({"", middle + Point(side / 2, (share - 0.5) * side)});
  const double gamma = std::tgamma(0.25), pi = std::numbers::pi;
  const double capacity = gamma * gamma / (4 * std::pow(pi, 1.5)) * side;
  const double exact = 2 * pi * 5 / std::log(ring / capacity);
  const auto own = tests::figures_of(tests::certified(c));
  auto coarse = c;
  coarse.accuracy.tolerance = 0.05;
  const char* name = "square bar in a ring, fixed potential";
  tests::record(name, "capacity of the square, Polya and Szego 1951 (memory)",
                "current [A/m]", exact, own.current,
                tests::order_on(tests::family(coarse, 3), 4. / 3,
                                [&](const tests::Solved& s) {
                                  return tests::total_current(s) - exact;
                                }));
  // Averages over a hundredth of the side; of s^(-1/3) at a tenth that is
  // (1/3)(4/3) 0.1^2 / 24 = 2e-4 off, in the middle nothing.
  const char* places[] = {"in the middle", "a quarter from an edge",
                          "a tenth from an edge"};
  const double values[] = {0.762759763502, 0.845201651976, 1.09298896196};
  for (std::size_t k = 0; k < 3; ++k) {
    tests::Figure found = own.shares[k];
    found.bar += k == 2 ? 2e-4 : 0;
    tests::record(name, "conformal map of the square's outside",
                  fmt::format("i/mean {}", places[k]), values[k], found);
  }
}

// At the tip of a sheet -1/2, from many thicknesses to a small part of its
// length; there current ~ 1/sqrt(r (length - r)), Newman, J. Electrochem. Soc.
// 113 (1966) 501 (from memory), which differs by r/(2 length), at most 2 %.
TEST_CASE("the law of a thin sheet's tip", "[exact]") {
  const double length = 0.08, thick = 2e-5;
  solver::Case c = in_a_ring(
      tests::solid(
          Role::part, "sheet", "plate",
          {{"width", thick}, {"height", length}, {"corner_radius", thick / 2}},
          {0, 0}),
      2.5 * length);
  c.accuracy.averaging_length = 1e-5;
  const auto s = tests::solved(c);
  const Point tip = c.section.solids[0].at + Point(thick / 2, -length / 2);
  CHECK(slope(s, tip, {0, 1}, 40 * thick, 0.04 * length) ==
        Approx(-0.5).epsilon(0.05));
}
