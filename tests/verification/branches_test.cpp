// Cells that are one-dimensional in each branch, so that the circuit around
// them can be worked out by hand: Ohm's and Kirchhoff's laws. A linear
// potential lies in the space of P2: only rounding is left, times the
// condition of the system (below 1e6 here).
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

using namespace thinspot;
using mesh::Role;

namespace {

constexpr double kappa = 5, gap = 0.1, plate = 0.01;
constexpr double upper = 0.03, lower = 0.02, between = 0.004;
constexpr double cathode = 1e-3, anode = 2e-4;  // ohm m2

/// Two channels above one another, an insulating bar between them, one anode
/// for both at the right; at the left a cathode for each.
solver::Case two_branches(Role second) {
  const double height = lower + between + upper;
  solver::Case c = tests::plan_box(gap + 2 * plate, height, kappa);
  c.section.solids = {
      tests::solid(Role::part, "part", "plate",
                   {{"width", plate}, {"height", upper}},
                   {plate / 2, height - upper / 2}),
      tests::solid(second, "other", "plate",
                   {{"width", plate}, {"height", lower}},
                   {plate / 2, lower / 2}),
      tests::solid(Role::anode, "anode", "plate",
                   {{"width", plate}, {"height", height}},
                   {gap + 1.5 * plate, height / 2}),
      tests::solid(Role::shield, "bar", "plate",
                   {{"width", gap + plate}, {"height", between}},
                   {(gap + plate) / 2, lower + between / 2})};
  c.cathode.resistance.value = cathode;
  tests::add_anode(c, 2, anode);
  return c;
}

/// Of one channel, from metal to metal [ohm], 1 m deep.
double channel_resistance(double height, double at_cathode) {
  return (gap / kappa + at_cathode + anode) / height;
}

}  // namespace

TEST_CASE("a thief with a resistance in its lead", "[exact][table]") {
  const double lead = GENERATE(0.4, 20.0);
  CAPTURE(lead);
  solver::Case c = two_branches(Role::thief);
  c.thieves.push_back({"other", 1, {lead, 0}, {}});
  c.thieves[0].polarization.emplace().resistance = {4e-3, 0};
  c.supply.lead_resistance.value = 0.3;
  const auto s = tests::solved(c);
  // The supply's lead, then both branches beside each other.
  const double part = channel_resistance(upper, cathode);
  const double thief = channel_resistance(lower, 4e-3) + lead;
  const double total = 1 / (0.3 + 1 / (1 / part + 1 / thief));
  const double voltage = 1 - 0.3 * total;
  tests::record("branches, a thief beside the part", "Ohm and Kirchhoff",
                fmt::format("current, {:g} ohm in the thief's lead [A]", lead),
                total, {s.outcome.point.total_current, 1e-8 * total},
                {tests::Order::Kind::exact});
  CHECK(tests::current_of(s, 0) == Approx(voltage / part).epsilon(1e-8));
  CHECK(tests::current_of(s, 1) == Approx(voltage / thief).epsilon(1e-8));
}

TEST_CASE("contact resistances on a rack", "[exact][table]") {
  solver::Case c = two_branches(Role::part);
  c.section.solids[0].key = "part.1";
  c.section.solids[1].key = "part.2";
  c.section.solids[0].copy = 1;
  c.section.solids[1].copy = 2;
  c.rack = solver::Rack{{c.section.solids[0].at, c.section.solids[1].at},
                        {{0.2, 0}, {1.5, 0}}};
  const auto s = tests::solved(c);
  const double first = 1 / (channel_resistance(upper, cathode) + 0.2);
  const double second = 1 / (channel_resistance(lower, cathode) + 1.5);
  CHECK(tests::current_of(s, 0) == Approx(first).epsilon(1e-8));
  tests::record("branches, contacts of a rack", "Ohm and Kirchhoff",
                "current over the worse contact [A]", second,
                {tests::current_of(s, 1), 1e-8 * second},
                {tests::Order::Kind::exact});
  CHECK(s.outcome.parts[1].current_density_spread.max ==
        Approx(second / lower).epsilon(1e-8));
}

TEST_CASE("clips hold a part through their contacts, beside each other",
          "[exact]") {
  solver::Case c = two_branches(Role::clip);
  const bool second = GENERATE(false, true);
  c.clips = {{"other", {1}, {0.3, 0}}};
  if (second) c.clips.push_back({"another", {}, {0.6, 0}});
  const auto s = tests::solved(c);
  // The clip itself is on the rail without any.
  const double contact = second ? 1 / (1 / 0.3 + 1 / 0.6) : 0.3;
  const double part = 1 / (channel_resistance(upper, cathode) + contact);
  const double clip = 1 / channel_resistance(lower, cathode);
  CHECK(tests::current_of(s, 0) == Approx(part).epsilon(1e-8));
  CHECK(tests::current_of(s, 1) == Approx(clip).epsilon(1e-8));
}

TEST_CASE("a floating plate across the whole channel", "[exact][table]") {
  const double resistance = GENERATE(0.0, 2e-3);
  const double tilt = GENERATE(0.0, 0.3);
  CAPTURE(resistance, tilt);
  solver::Case c = tests::channel(gap, upper, kappa, cathode, anode, 1);
  const double thick = 0.002, middle = plate + 0.4 * gap;
  c.section.solids.push_back(
      tests::solid(Role::floating, "sheet", "plate",
                   {{"width", thick}, {"height", tilt > 0 ? 0.01 : upper}},
                   {middle, upper / 2}));
  c.section.solids[2].turn = tilt;
  solver::Floating sheet;
  sheet.name = "sheet";
  sheet.solid = 2;
  sheet.resistance.value = resistance;
  c.floating = {sheet};
  const auto s = tests::solved(c);
  const double total = tests::current_of(s, 0);
  CHECK(total > 0);
  CHECK(std::abs(tests::current_of(s, 2)) < 1e-9 * total);
  if (tilt > 0) return;
  // Into the sheet and out of it again.
  const double exact =
      upper / ((gap - thick) / kappa + cathode + anode + 2 * resistance);
  tests::record(
      "branches, a floating plate across", "series connection",
      fmt::format("current, {:g} ohm m2 on both its sides [A]", resistance),
      exact, {total, 1e-8 * exact}, {tests::Order::Kind::exact});
}

TEST_CASE("two copies that stand alike get alike", "[property]") {
  const double height = 0.2;
  solver::Case c = tests::plan_box(0.1, height, kappa);
  for (int k : {1, 2}) {
    const std::string key = "part." + std::to_string(k);
    c.section.solids.push_back(tests::solid(
        Role::part, key, "coin",
        {{"diameter", 0.02}, {"thickness", 0.002}, {"edge_radius", 5e-4}},
        {0.05, k == 1 ? 0.05 : height - 0.05}));
    c.section.solids.back().copy = k;
  }
  c.section.solids.push_back(tests::solid(Role::anode, "sheet", "plate",
                                          {{"width", 0.002}, {"height", 0.15}},
                                          {0.011, height / 2}));
  c.cathode.resistance.value = cathode;
  tests::add_anode(c, 2, anode);
  c.rack = solver::Rack{{c.section.solids[0].at, c.section.solids[1].at}, {}};
  const auto s = tests::solved(c);
  // Each within the tolerance asked for.
  CHECK(tests::current_of(s, 0) ==
        Approx(tests::current_of(s, 1)).epsilon(2 * c.accuracy.tolerance));
  const auto& a = s.outcome.parts[0].current_density_spread;
  const auto& b = s.outcome.parts[1].current_density_spread;
  const double margin = 2 * c.accuracy.tolerance * a.mean;
  CHECK(a.min == Approx(b.min).margin(margin));
  CHECK(a.max == Approx(b.max).margin(margin));
}
