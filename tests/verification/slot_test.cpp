// A slot in a thick piece of metal before a far anode.
#include "bench_cases.hpp"
#include "solved.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <vector>

using namespace thinspot;
using mesh::Point;
using mesh::Role;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double w = 0.002, pitch = 40 * w, depth = 5 * w, far = 40 * w;
constexpr double kappa = 5, land = depth + w;  // height of the metal's face
/// Pieces a width into which the slot's walls are drawn, so that the mesh
/// resolves currents too small to matter for the whole.
constexpr int pieces = 8;

/// Metal from wall to wall with one slot in the middle; the walls of the tank
/// are mirrors, so this is a row of slots 40 widths apart.
solver::Case slotted(double resistance) {
  const double sheet = w;
  solver::Case c = tests::plan_box(pitch, land + far + sheet, kappa);
  const double left = pitch / 2 - w / 2, right = pitch / 2 + w / 2;
  std::vector<Point> corners{{0, 0}, {pitch, 0}, {pitch, land}};
  const int count = 5 * pieces;
  for (int k = 0; k <= count; ++k)
    corners.emplace_back(right, land - depth * k / count);
  for (int k = count; k >= 0; --k)
    corners.emplace_back(left, land - depth * k / count);
  corners.emplace_back(0, land);
  c.section.solids = {tests::drawn(Role::part, "block", corners),
                      tests::solid(Role::anode, "sheet", "plate",
                                   {{"width", pitch}, {"height", sheet}},
                                   {pitch / 2, land + far + sheet / 2})};
  c.cathode.resistance.value = resistance;
  tests::add_anode(c, 1, 0);
  return c;
}

/// At a depth below the mouth on the right wall, averaged over an eighth of a
/// width [A/m2].
double wall_current(const tests::Solved& s, double below) {
  const double x = pitch / 2 + w / 2, y = land - below, half = w / 16;
  return tests::mean_between(s, {x, y + half}, {x, y - half});
}

/// Average of exp(-mu x) over that window, over its value in the middle.
double window_gain(double mu) { return std::sinh(mu * w / 16) / (mu * w / 16); }

/// Currents are linear on an edge, which misses this share of exp(-mu x).
double edge_error(double mu) {
  const double step = mu * w / pieces;
  return step * step / 12;
}

}  // namespace

// With q - tanh q = pi d/w, wall current = kappa E / sinh q, and with
// u - atan u = pi s/w the land's = kappa E sqrt(1 + u^2)/u, for one slot
// without a bottom in a half space. Source: Schwarz-Christoffel map of the
// slotted half plane. The neighbours change it by (w/pitch)^2 = 6e-4 at most,
// the bottom at five widths by exp(-4 pi) three widths down.
//
// The mouth's corners open into the liquid by 3/2 pi: potentials there go with
// r^(2/3), and errors everywhere fall with twice that power at least.
TEST_CASE("primary current down a slot", "[exact][table]") {
  const auto family = tests::family(slotted(0), 2);
  const auto& s = family.front();
  const double field = tests::current_of(s, 0) / pitch;  // far away [A/m2]
  const double tolerance = s.used.accuracy.tolerance;
  const double expected[][2] = {
      {1, 0.03181916146479}, {2, 0.001373989522529}, {3, 5.937538701013e-5}};
  // Two errors of either sign may meet at one place: the three together fall.
  std::vector<double> changes;
  for (std::size_t k = 1; k < family.size(); ++k) {
    double squares = 0;
    for (const auto& [d, value] : expected)
      squares += std::pow(
          wall_current(family[k], d * w) / wall_current(family[k - 1], d * w) -
              1,
          2);
    changes.push_back(std::sqrt(squares));
  }
  const tests::Order order{tests::Order::Kind::measured,
                           tests::order_of(changes), 4. / 3};
  for (const auto& [d, value] : expected) {
    const double found = wall_current(s, d * w) / window_gain(pi / w) / field;
    tests::record({"slot in a block, fixed potential",
                   "conformal map of the slotted half plane",
                   fmt::format("i over far i, {:g} w down the wall", d), value,
                   found, value * (tolerance + 6e-4 + edge_error(pi / w)),
                   order});
  }
  const double x = pitch / 2 + w / 2 + w;
  const double found =
      tests::mean_between(s, {x + w / 20, land}, {x - w / 20, land}) / field;
  tests::record({"slot in a block, fixed potential",
                 "conformal map of the slotted half plane",
                 "i over far i, 1 w beside the mouth", 1.024464583491, found,
                 tolerance + 6e-4});
}

// With polarization the slowest mode dies away with mu tan(mu w/2) =
// 1/(kappa R); back from the bottom, which has the same law, it is
//   cosh(mu x) + sinh(mu x)/(mu kappa R).
// For wide kappa R / w that is the fin of heat transfer, mu^2 = 2/(kappa R w),
// 1.7 % fast at 5 and 0.17 % at 50 (Carslaw and Jaeger, Conduction of Heat in
// Solids, 1959, chapter IV, from memory). The next mode is gone by
// exp(-1.5 (2 pi - 1)) or faster at a depth of 1.5 widths.
TEST_CASE("polarized current down a slot", "[exact][table]") {
  struct Row {
    double length, mu, fin_error;  ///< in widths; of the fin's mu
  };
  const Row row = GENERATE(
      Row{0.1, 2.6276754329858, 0}, Row{1, 1.3065423741888, 0},
      Row{5, 0.6221056964006, 0.0167}, Row{50, 0.19966727710225, 0.0017});
  CAPTURE(row.length);
  const auto family = tests::family(slotted(row.length * w / kappa), 2);
  const auto& s = family.front();
  const double found = wall_current(s, 1.5 * w) / wall_current(s, 3.5 * w);
  const auto ratio = [&](double mu) {
    const auto at = [&](double x) {
      return std::cosh(mu * x) + std::sinh(mu * x) / (mu * row.length);
    };
    return at(3.5) / at(1.5);
  };
  const double next_mode = std::exp(-1.5 * (2 * pi - 1));
  const double tolerance = s.used.accuracy.tolerance + next_mode;
  const double exact = ratio(row.mu);
  tests::record({"slot in a block, with a law",
                 "slowest mode, mu tan(mu w/2) = 1/kappa R",
                 fmt::format("i 1.5 w down over 3.5 w down, kappa R = {:g} w",
                             row.length),
                 exact, found, exact * (tolerance + edge_error(row.mu / w)),
                 tests::order_of_changes(family, 4. / 3, [](const auto& of) {
                   return wall_current(of, 1.5 * w) / wall_current(of, 3.5 * w);
                 })});
  if (row.fin_error == 0) return;
  const double fin = std::sqrt(2 / row.length);
  CHECK(fin / row.mu - 1 == Approx(row.fin_error).margin(1e-3));
  // Two widths down the fin's error in mu makes twice itself times mu.
  CHECK(found ==
        Approx(ratio(fin)).epsilon(tolerance + 2 * fin * row.fin_error));
}
