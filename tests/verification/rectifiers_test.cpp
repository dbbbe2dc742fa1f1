// Anodes on rectifiers of their own. A plate across a channel with an anode on
// either side is two one-dimensional cells: what each rectifier shows follows
// from Ohm's and Kirchhoff's laws. A linear potential lies in the space of P2:
// only rounding is left, times the condition of the system (below 1e6 here).
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/estimate.hpp"
#include "solver/inspect.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <array>
#include <cmath>

using namespace thinspot;
using mesh::Role;

namespace {

constexpr double kappa = 5, plate = 0.01, height = 0.05;
constexpr double left_gap = 0.1, right_gap = 0.06;
constexpr double cathode = 1e-3, anode = 2e-4;  // ohm m2

/// Of one side, from metal to metal [ohm], 1 m deep.
double side(double gap) { return (gap / kappa + cathode + anode) / height; }

solver::Supply at_current(double amperes) {
  solver::Supply s;
  s.current = solver::Quantity{amperes, 0};
  return s;
}

solver::Supply at_voltage(double volts) {
  solver::Supply s;
  s.voltage = solver::Quantity{volts, 0};
  return s;
}

/// Anode, plate and anode across a channel, each anode on its own rectifier.
solver::Case two_sides(const solver::Supply& left,
                       const solver::Supply& right) {
  const double middle = plate + left_gap + plate / 2;
  const double width = 3 * plate + left_gap + right_gap;
  solver::Case c = tests::plan_box(width, height, kappa);
  c.supply = {};
  const mesh::Sizes sizes{{"width", plate}, {"height", height}};
  c.section.solids = {
      tests::solid(Role::part, "part", "plate", sizes, {middle, height / 2}),
      tests::solid(Role::anode, "left", "plate", sizes,
                   {plate / 2, height / 2}),
      tests::solid(Role::anode, "right", "plate", sizes,
                   {width - plate / 2, height / 2})};
  c.cathode.resistance.value = cathode;
  tests::add_anode(c, 1, anode);
  tests::add_anode(c, 2, anode);
  c.anodes[1].rectifier = 1;
  c.rectifiers = {{"main", left}, {"helper", right}};
  return c;
}

/// A resistance that both share, between the part and the minus rail.
void add_contact(solver::Case& c, double ohm) {
  c.section.solids[0].copy = 1;
  c.rack = solver::Rack{{c.section.solids[0].at}, {{ohm, 0}}};
}

const solver::RectifierResult& of(const solver::Result& r, std::size_t k) {
  return r.cell.rectifiers.at(k);
}

}  // namespace

TEST_CASE("two sides of a plate on two rectifiers", "[exact][table]") {
  solver::Case c = two_sides(at_current(2), at_voltage(1.5));
  c.rectifiers[0].supply.lead_resistance.value = 0.1;
  c.rectifiers[1].supply.lead_resistance.value = 0.2;
  const auto s = tests::solved(c);
  const solver::WorkingPoint& w = s.outcome.point;
  const double volts = 2 * (side(left_gap) + 0.1);
  const double amperes = 1.5 / (side(right_gap) + 0.2);
  tests::record("two sides, two rectifiers", "Ohm and Kirchhoff",
                "voltage of the one set to 2 A [V]", volts,
                {w.rectifiers[0].voltage, 1e-8 * volts},
                {tests::Order::Kind::exact});
  tests::record("two sides, two rectifiers", "Ohm and Kirchhoff",
                "current of the one set to 1.5 V [A]", amperes,
                {w.rectifiers[1].current, 1e-8 * amperes},
                {tests::Order::Kind::exact});
  CHECK(w.rectifiers[0].current == Approx(2).epsilon(1e-9));
  CHECK(w.rectifiers[1].voltage == Approx(1.5).epsilon(1e-9));
  CHECK(tests::current_of(s, 1) == Approx(-2).epsilon(1e-8));
  CHECK(tests::current_of(s, 2) == Approx(-amperes).epsilon(1e-8));
  CHECK(w.total_current == Approx(2 + amperes).epsilon(1e-8));
  // The cell's voltage is that of the rectifier that gives more.
  const double leading = amperes > 2 ? 1.5 : volts;
  CHECK(w.terminal_voltage == Approx(leading).epsilon(1e-8));
}

namespace {

/// A rectifier by hand: what it is set to, its limit, what is in its way.
struct ByHand {
  double current, limit, resistance;
};

/// The one choice of what holds where that keeps all settings and limits, by
/// trying all four. Currents of both.
std::array<double, 2> by_trial(const std::array<ByHand, 2>& r, double shared) {
  for (int choice = 0; choice < 4; ++choice) {
    const bool limited[2] = {(choice & 1) != 0, (choice & 2) != 0};
    // shared * (i0 + i1) + resistance * i = limit, or i as set.
    double a[2][2], b[2];
    for (int k = 0; k < 2; ++k) {
      a[k][k] = limited[k] ? shared + r[k].resistance : 1;
      a[k][1 - k] = limited[k] ? shared : 0;
      b[k] = limited[k] ? r[k].limit : r[k].current;
    }
    const double det = a[0][0] * a[1][1] - a[0][1] * a[1][0];
    const std::array<double, 2> i{(b[0] * a[1][1] - a[0][1] * b[1]) / det,
                                  (a[0][0] * b[1] - a[1][0] * b[0]) / det};
    bool holds = true;
    for (std::size_t k = 0; k < 2; ++k) {
      const double volts = shared * (i[0] + i[1]) + r[k].resistance * i[k];
      holds = holds && i[k] <= r[k].current * (1 + 1e-12) &&
              volts <= r[k].limit * (1 + 1e-12);
    }
    if (holds) return i;
  }
  return {0, 0};
}

}  // namespace

TEST_CASE("each limit holds by itself, any of them with any other", "[exact]") {
  const double shared = 0.5;
  // In the last row the first is beyond its limit only as long as the second
  // is not held back.
  const auto [i0, u0, i1, u1] =
      GENERATE(table<double, double, double, double>({{1, 10, 1, 10},
                                                      {3, 1.5, 1, 10},
                                                      {1, 10, 3, 1.5},
                                                      {3, 1.5, 3, 1.6},
                                                      {1, 1.3, 5, 1.2}}));
  CAPTURE(i0, u0, i1, u1);
  solver::Case c = two_sides(at_current(i0), at_current(i1));
  c.rectifiers[0].supply.voltage_limit = u0;
  c.rectifiers[1].supply.voltage_limit = u1;
  add_contact(c, shared);
  const std::array<double, 2> exact = by_trial(
      {ByHand{i0, u0, side(left_gap)}, ByHand{i1, u1, side(right_gap)}},
      shared);
  REQUIRE(exact[0] > 0);
  const auto s = tests::solved(c);
  for (std::size_t k = 0; k < 2; ++k) {
    const solver::AtRectifier& r = s.outcome.point.rectifiers[k];
    CHECK(r.current == Approx(exact[k]).epsilon(1e-8));
    const bool reached = exact[k] < (k == 0 ? i0 : i1) * (1 - 1e-9);
    CHECK(r.limited_by == (reached ? "voltage limit" : "current"));
    if (reached) CHECK(r.voltage == Approx(k == 0 ? u0 : u1).epsilon(1e-9));
  }
}

TEST_CASE("one rectifier is one supply", "[property]") {
  solver::Case c = tests::token();
  c.wires = {{"1", 0.0008, 0.035, false}};
  c.supply.lead_resistance.value = 0.05;
  const int mode = GENERATE(0, 1, 2, 3);
  c.supply.current.reset();
  if (mode == 0) c.supply.current = solver::Quantity{0.4, 0};
  if (mode == 1) c.supply.current_density = solver::Quantity{180, 0};
  if (mode == 2) c.supply.voltage = solver::Quantity{0.6, 0};
  if (mode == 3) c.supply.current_density = solver::Quantity{400, 0};
  c.supply.voltage_limit = 0.6;
  const auto s = tests::solved(c);
  solver::Case d = c;
  d.rectifiers = {{"main", c.supply}};
  d.supply = {};
  const auto t = tests::solved(d);
  const solver::WorkingPoint &one = s.outcome.point, &own = t.outcome.point;
  // Both end their search at 1e-10 of each resistance.
  CHECK(own.total_current == Approx(one.total_current).epsilon(1e-8));
  CHECK(own.terminal_voltage == Approx(one.terminal_voltage).epsilon(1e-8));
  CHECK(own.limited_by == one.limited_by);
  CHECK(own.rectifiers[0].current == Approx(one.total_current).epsilon(1e-8));
  const auto a = solver::estimate_errors(s.model, s.used, s.outcome).errors;
  const auto b = solver::estimate_errors(t.model, t.used, t.outcome).errors;
  // Bars by differences of one part in a million.
  CHECK(b.voltage == Approx(a.voltage).epsilon(1e-3).margin(1e-9));
  CHECK(b.current == Approx(a.current).epsilon(1e-3).margin(1e-9));
  CHECK(b.rectifiers[0].voltage == Approx(b.voltage).epsilon(1e-6));
  CHECK(b.rectifiers[0].current ==
        Approx(b.current).epsilon(1e-3).margin(1e-9));
}

namespace {

/// A token between two sheets at unlike distances, and a thief.
solver::Case uneven_set_up() {
  solver::Case c = tests::token();
  c.section.solids.push_back(tests::solid(Role::anode, "far", "plate",
                                          {{"width", 0.002}, {"height", 0.03}},
                                          {0.085, 0.06}));
  tests::add_anode(c, 2, 0);
  c.section.solids.push_back(tests::solid(
      Role::thief, "bar", "rod", {{"diameter", 0.003}}, {0.045, 0.075}));
  c.thieves.push_back({"bar", 3, {0.5, 0}, {}});
  c.wires = {{"1", 0.0008, 0.035, false}};
  return c;
}

}  // namespace

TEST_CASE("rectifiers at one voltage are one supply", "[property]") {
  solver::Case c = uneven_set_up();
  c.supply = at_voltage(0.5);
  const auto s = tests::solved(c);
  c.rectifiers = {{"a", c.supply}, {"b", c.supply}};
  c.anodes[1].rectifier = 1;
  const auto t = tests::solved(c);
  CHECK(t.outcome.point.total_current ==
        Approx(s.outcome.point.total_current).epsilon(1e-8));
  for (std::size_t solid = 0; solid < 4; ++solid)
    CHECK(tests::current_of(t, solid) ==
          Approx(tests::current_of(s, solid)).epsilon(1e-8));
}

TEST_CASE("rectifiers give together what all cathodes take", "[property]") {
  solver::Case c = uneven_set_up();
  c.rectifiers = {{"a", at_current(0.25)}, {"b", at_current(0.15)}};
  c.anodes[1].rectifier = 1;
  const auto r = solver::simulate(c);
  CHECK(of(r, 0).current == Approx(0.25).epsilon(1e-9));
  CHECK(of(r, 1).current == Approx(0.15).epsilon(1e-9));
  CHECK(r.cell.current == Approx(0.4).epsilon(1e-8));
  CHECK(r.parts[0].current + r.thieves[0].current + r.wires[0].current ==
        Approx(0.4).epsilon(1e-8));
  CHECK(r.wires[0].current > 0);
  CHECK(r.thieves[0].current > 0);
}

TEST_CASE("bars of rectifiers hold against a finer mesh", "[property]") {
  solver::Case c = uneven_set_up();
  c.rectifiers = {{"a", at_current(0.25)}, {"b", at_voltage(0.6)}};
  c.anodes[1].rectifier = 1;
  c.accuracy.tolerance = 0.02;
  const auto coarse = solver::simulate(c);
  c.accuracy.tolerance = 2e-4;
  const auto fine = solver::simulate(c);
  const auto &a = of(coarse, 0), &b = of(fine, 0);
  CHECK(std::abs(a.voltage - b.voltage) <=
        a.voltage_mesh_error + b.voltage_mesh_error);
  CHECK(a.voltage_mesh_error > 0);
  CHECK(b.voltage_mesh_error <= 2e-4 * b.voltage);
  const auto &p = of(coarse, 1), &q = of(fine, 1);
  CHECK(std::abs(p.current - q.current) <=
        p.current_mesh_error + q.current_mesh_error);
  CHECK(p.current_mesh_error > 0);
  CHECK(q.current_mesh_error <= 2e-4 * fine.cell.current);
  // What is set has no error but rounding.
  CHECK(q.voltage_mesh_error <= 1e-8);
  CHECK(a.current_mesh_error <= 1e-8);
}

TEST_CASE("what is uncertain at one rectifier moves that one", "[exact]") {
  // V = I R: 10 % of the one current are 10 % of its voltage.
  solver::Case c = two_sides(at_current(2), at_current(1));
  c.rectifiers[1].supply.current->plus_minus = 0.1;
  const auto r = solver::simulate(c);
  CHECK(of(r, 1).voltage_band.high ==
        Approx(1.1 * side(right_gap)).epsilon(1e-8));
  CHECK(of(r, 1).voltage_band.low ==
        Approx(0.9 * side(right_gap)).epsilon(1e-8));
  CHECK(of(r, 1).current_band.high == Approx(1.1).epsilon(1e-8));
  CHECK(of(r, 0).voltage_band.high == Approx(2 * side(left_gap)).epsilon(1e-8));
  CHECK(r.cell.current_band.high == Approx(3.1).epsilon(1e-8));
}

TEST_CASE("no rectifier takes current back", "[exact]") {
  solver::Case c = two_sides(at_voltage(3), at_voltage(0.1));
  add_contact(c, 0.5);
  // The part stands that far above the minus rail, its other side idle.
  const auto s = tests::solved(c);
  const auto& r = s.outcome.point.rectifiers;
  const double main = 3 / (side(left_gap) + 0.5);
  CHECK(r[0].current == Approx(main).epsilon(1e-8));
  CHECK(r[1].current == 0);
  CHECK(std::abs(tests::current_of(s, 2)) < 1e-9 * main);
  CHECK(r[1].voltage == Approx(0.5 * main).epsilon(1e-8));
  CHECK(r[1].limited_by == "blocked");
  // A limit stands no firmer than a voltage that is set.
  c.rectifiers[1].supply = at_current(1);
  c.rectifiers[1].supply.voltage_limit = 0.1;
  const auto t = tests::solved(c);
  CHECK(t.outcome.point.rectifiers[1].limited_by == "blocked");
  CHECK(t.outcome.point.total_current == Approx(main).epsilon(1e-8));
}

TEST_CASE("a step sets rectifiers otherwise, or leaves one idle", "[exact]") {
  solver::Case c = two_sides(at_current(2), at_current(1));
  c.rectifiers[1].supply.lead_resistance = {0.2, 0.02};
  c.steps = {{{600, 0}}, {{600, 0}}, {{600, 0}}};
  c.steps[1].rectifiers = {at_current(2), at_current(0.5)};
  c.steps[2].rectifiers = c.steps[1].rectifiers;
  c.steps[2].off = {"left"};
  const auto r = solver::simulate(c);
  const auto volts = [&](std::size_t step, std::size_t k) {
    return r.steps[step].cell.rectifiers[k].voltage;
  };
  const double helper = side(right_gap) + 0.2;
  CHECK(volts(0, 1) == Approx(helper).epsilon(1e-8));
  CHECK(volts(1, 1) == Approx(0.5 * helper).epsilon(1e-8));
  CHECK(volts(1, 0) == Approx(2 * side(left_gap)).epsilon(1e-8));
  CHECK(of(r, 0).limited_by == "idle");
  CHECK(of(r, 0).current == 0);
  CHECK(r.cell.current == Approx(0.5).epsilon(1e-8));
  // The lead is the case's in every step, its uncertainty too.
  CHECK(of(r, 1).voltage_band.high ==
        Approx(0.5 * (helper + 0.02)).epsilon(1e-8));
  CHECK(r.cell.voltage == Approx(0.5 * helper).epsilon(1e-8));
}

TEST_CASE("check knows each rectifier's voltage in two straight channels",
          "[exact]") {
  solver::Case c = two_sides(at_current(2), at_voltage(1.5));
  c.rectifiers[0].supply.lead_resistance.value = 0.1;
  const solver::CellEstimate e = solver::inspect(c).cell;
  // The polarization of the cathode counts once for the mean over both sides,
  // here at most a twentieth of either side's resistance.
  const double volts = 2 * (side(left_gap) + 0.1);
  CHECK(e.rectifiers[0].voltage == Approx(volts).epsilon(0.05));
  CHECK(e.rectifiers[1].current == Approx(1.5 / side(right_gap)).epsilon(0.08));
  CHECK(e.rectifiers[0].range.low < volts);
  CHECK(e.rectifiers[0].range.high > volts);
  CHECK(e.current == Approx(2 + e.rectifiers[1].current).epsilon(1e-12));
}
