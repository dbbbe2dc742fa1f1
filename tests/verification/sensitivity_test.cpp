// Derivatives of thickness and voltage by every input, by duals: against
// differences of the same discrete problem, and against a closed form.
#include "sensitivity_checks.hpp"

#include "bench_cases.hpp"
#include "solver/efficiency.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using mesh::Role;
using tests::compare;
using tests::share_by;
using Kind = solver::FigureOf::Kind;

namespace {

/// A token before a sheet where every number has a say.
solver::Case token() {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.cathode.offset.value = 0.05;
  solver::Anode& anode = c.anodes[0];
  anode.polarization.resistance.value = 1e-4;
  anode.polarization.offset.value = 0.02;
  anode.open_circuit_voltage.value = 0.1;
  anode.bag_resistance.value = 2e-4;
  c.supply.lead_resistance.value = 0.05;
  c.solution.efficiency.value = 0.97;
  c.wires = {{"wire", 5e-4, 0.02, false}};
  c.probes = {{"left", {0.0438, 0.05}}};
  return c;
}

/// Its lead stays.
void set_voltage(solver::Supply& s, double volts) {
  const solver::Quantity lead = s.lead_resistance;
  s = {};
  s.voltage = solver::Quantity{volts, 0};
  s.lead_resistance = lead;
}

void set_curved(solver::Polarization& p, solver::Law law) {
  p.law = law;
  p.exchange_current_density.value = 20;
  p.tafel_slope.value = 0.12;
  p.reverse_tafel_slope.value = 0.1;
}

solver::Thief thief(solver::Case& c) {
  c.section.solids.push_back(tests::solid(
      Role::thief, "guard", "rod", {{"diameter", 0.002}}, {0.045, 0.07}));
  solver::Thief t;
  t.name = "guard";
  t.solid = c.section.solids.size() - 1;
  t.resistance.value = 0.4;
  return t;
}

/// A second sheet on the token's other side, each on its own supply.
solver::Case two_rectifiers(double left, double right) {
  solver::Case c = token();
  c.section.solids.push_back(tests::solid(Role::anode, "back", "plate",
                                          {{"width", 0.002}, {"height", 0.05}},
                                          {0.08, 0.05}));
  tests::add_anode(c, c.section.solids.size() - 1, 2e-4);
  c.anodes[1].rectifier = 1;
  c.rectifiers.resize(2);
  c.rectifiers[0] = {"main", {}};
  c.rectifiers[1] = {"helper", {}};
  c.rectifiers[0].supply.current = solver::Quantity{left, 0};
  c.rectifiers[1].supply.current = solver::Quantity{right, 0};
  for (solver::Rectifier& r : c.rectifiers)
    r.supply.lead_resistance.value = 0.1;
  c.supply = {};
  return c;
}

}  // namespace

TEST_CASE("derivatives with straight laws", "[sensitivity]") {
  solver::Case c = token();
  SECTION("at a current") {}
  SECTION("at a current density") {
    c.supply.current.reset();
    c.supply.current_density = solver::Quantity{150, 0};
  }
  SECTION("at a voltage") { set_voltage(c.supply, 0.9); }
  SECTION("at its voltage limit") { c.supply.voltage_limit = 0.7; }
  SECTION("with slopes that follow the current") {
    c.cathode.at = 200;
    c.anodes[0].polarization.at = 80;
  }
  SECTION("with slopes that follow the current, at a voltage") {
    c.cathode.at = 200;
    c.anodes[0].polarization.at = 80;
    set_voltage(c.supply, 0.9);
  }
  compare(c);
}

TEST_CASE("derivatives where potentials are held", "[sensitivity]") {
  solver::Case c = token();
  SECTION("by the part") {
    c.cathode.resistance.value = 0;
    CHECK(!share_by(compare(c), "cathode.polarization_resistance"));
  }
  SECTION("by the part, at a voltage") {
    c.cathode.resistance.value = 0;
    set_voltage(c.supply, 0.9);
    compare(c);
  }
  SECTION("by the sheet") {
    c.anodes[0].polarization.resistance.value = 0;
    c.anodes[0].bag_resistance.value = 0;
    const auto s = compare(c);
    CHECK(!share_by(s, "anode.sheet.polarization_resistance"));
    CHECK(!share_by(s, "anode.sheet.bag_resistance"));
    CHECK(share_by(s, "cathode.polarization_resistance"));
  }
}

TEST_CASE("derivatives with curved laws", "[sensitivity]") {
  solver::Case c = token();
  c.cathode.resistance.value = 0;
  const bool limited = GENERATE(false, true);
  const bool by_voltage = GENERATE(false, true);
  CAPTURE(limited, by_voltage);
  c.solution.limiting_current_density = solver::Quantity{600, 0};
  c.cathode.mass_transfer = limited;
  if (by_voltage) set_voltage(c.supply, 0.8);
  SECTION("Tafel") { set_curved(c.cathode, solver::Law::tafel); }
  SECTION("Butler-Volmer at both, with a bag") {
    set_curved(c.cathode, solver::Law::butler_volmer);
    set_curved(c.anodes[0].polarization, solver::Law::butler_volmer);
  }
  SECTION("a straight one below a limit") {
    c.cathode.resistance.value = 2.6e-4;
  }
  compare(c);
}

TEST_CASE("derivatives with two rectifiers", "[sensitivity]") {
  solver::Case c = two_rectifiers(0.2, 0.15);
  SECTION("at their currents") {}
  SECTION("with slopes that follow the current") { c.cathode.at = 150; }
  SECTION("one at its limit") { c.rectifiers[1].supply.voltage_limit = 0.3; }
  SECTION("one at a voltage, and a thief") {
    c.thieves = {thief(c)};
    set_voltage(c.rectifiers[1].supply, 0.5);
  }
  SECTION("one blocked") {
    c.rectifiers[0].supply.current->value = 0.6;
    set_voltage(c.rectifiers[1].supply, 0.01);
    const auto s = solver::run_schedule(c);
    REQUIRE(s.last().solved->outcome.point.rectifiers[1].limited_by ==
            "blocked");
  }
  compare(c);
}

TEST_CASE("derivatives with more metal in the tank", "[sensitivity]") {
  solver::Case c = token();
  SECTION("a clip with a contact") {
    c.wires.clear();
    c.section.solids.push_back(
        tests::solid(Role::clip, "clip", "plate",
                     {{"width", 0.003}, {"height", 0.03}}, {0.045, 0.0795}));
    c.clips = {{"clip", {2}, {0.08, 0}}};
  }
  SECTION("a thief with a lead") {
    c.thieves = {thief(c)};
    set_voltage(c.supply, 0.9);
  }
  SECTION("a thief with a law of its own") {
    c.thieves = {thief(c)};
    c.thieves[0].polarization = c.cathode;
    set_curved(*c.thieves[0].polarization, solver::Law::tafel);
  }
  SECTION("a clip that touches, none with polarization") {
    c.wires.clear();
    c.cathode = {};
    c.section.solids.push_back(
        tests::solid(Role::clip, "clip", "plate",
                     {{"width", 0.003}, {"height", 0.03}}, {0.045, 0.0795}));
    c.clips = {{"clip", {2}, {}}};
  }
  SECTION("floating metal") {
    c.section.solids.push_back(tests::solid(
        Role::floating, "bar", "rod", {{"diameter", 0.004}}, {0.025, 0.06}));
    c.floating = {{"bar", 2, "copper", {3e-4, 0}}};
  }
  compare(c);
}

TEST_CASE("derivatives of a rack", "[sensitivity]") {
  solver::Case c = token();
  c.wires.clear();
  c.probes.clear();
  c.section.tank = {mesh::Tank::Shape::box, 0.15, 0.12, 0.1};
  c.section.solids[0].copy = 1;
  c.section.solids.push_back(c.section.solids[0]);
  c.section.solids[2].copy = 2;
  c.section.solids[2].name = c.section.solids[2].key = "part 2";
  c.section.solids[2].at = {0.09, 0.06};
  c.rack = solver::Rack{{c.section.solids[0].at, c.section.solids[2].at},
                        {{0.05, 0}, {0.2, 0}}};
  const bool follows = GENERATE(false, true);
  if (follows) c.cathode.at = 200;
  compare(c);
}

TEST_CASE("derivatives about an axis", "[sensitivity]") {
  solver::Case c = token();
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank = {mesh::Tank::Shape::round, 0.08, 0.1, 0.1};
  c.section.solids[0] =
      tests::solid(Role::part, "part", "rod",
                   {{"diameter", 0.01}, {"length", 0.03}}, {0, 0.05});
  c.section.solids[1] =
      tests::solid(Role::anode, "sheet", "plate",
                   {{"width", 0.002}, {"height", 0.05}}, {0.03, 0.05});
  c.wires.clear();
  c.probes.clear();
  c.cathode.at = 200;
  compare(c);
}

TEST_CASE("derivatives over several steps", "[sensitivity]") {
  solver::Case c = token();
  c.wires.clear();
  SECTION("two with a flip, a supply and a conductivity of their own") {
    c.steps = {{{1200, 0}}, {{900, 0}}, {{300, 0}}};
    c.steps[1].motion.flip = true;
    c.steps[1].supply = solver::Supply{};
    c.steps[1].supply->current = solver::Quantity{0.5, 0};
    c.steps[2].conductivity = solver::Quantity{25, 0};
  }
  SECTION("two that share their currents, each by its own numbers") {
    c.steps = {{{1200, 0}}, {{900, 0}}};
    for (solver::Step& step : c.steps) step.supply = c.supply;
    const auto s = solver::run_schedule(c);
    REQUIRE(s.steps[0].solved == s.steps[1].solved);
  }
  SECTION("warmer in the second, an anode off") {
    c.section.solids.push_back(
        tests::solid(Role::anode, "back", "plate",
                     {{"width", 0.002}, {"height", 0.05}}, {0.08, 0.05}));
    tests::add_anode(c, 2, 2e-4);
    c.anodes[1].bag_resistance.value = 1e-4;
    c.steps = {{{1200, 0}}, {{900, 0}}};
    c.steps[1].temperature = 308.15;
    c.steps[1].off = {"back"};
  }
  SECTION("turning in positions") {
    c.section.cut = mesh::Cut::plan;
    c.depth = 0.02;
    c.steps[0].turning = solver::Turning{4, 170, 0};
  }
  SECTION("turning on and on") {
    c.section.cut = mesh::Cut::plan;
    c.depth = 0.02;
    c.cathode.at = 200;
    // A little more than three turns: where half the way to the next angle is
    // passed, thickness by time has a bend.
    c.steps[0].turning = solver::Turning{0, 0, 3.005 / 2400};
  }
  compare(c);
}

TEST_CASE("derivatives where efficiency goes by current density",
          "[sensitivity]") {
  solver::Case c = token();
  c.steps = {{{1200, 0}}, {{900, 0}}};
  c.steps[1].motion.flip = true;
  // One straight piece over all that flows: a point of the table within the
  // differences' reach would bend them.
  c.solution.efficiency_table = {{5, 0.95}, {3000, 0.3}};
  c.solution.efficiency = {0.95, 0};
  solver::refer_efficiency_to(c.solution, 200);
  SECTION("by its table") {}
  SECTION("and the slope by the current") { c.cathode.at = 200; }
  compare(c);
}

TEST_CASE("derivatives of a one-dimensional cell", "[exact]") {
  // i = V / (L/kappa + Rc + Ra + A r),  thickness = M/(nF rho) e t i
  const double length = 0.1, height = 0.03, volts = 1.5, r = 0.4;
  solver::Case c = tests::channel(length, height, 5, 2e-3, 1e-3, volts);
  c.supply.lead_resistance.value = r;
  const solver::Schedule s = solver::run_schedule(c);
  const auto found = solver::sensitivities(
      s, c, {{Kind::mean, 0}, {Kind::least, 0}, {Kind::voltage, 0}});
  const double whole = length / 5 + 2e-3 + 1e-3 + height * r;
  const auto check = [&](const std::string& key, double exact) {
    CAPTURE(key);
    for (std::size_t f : {0u, 1u})
      CHECK(share_by(found, key, f).value() == Approx(exact).epsilon(1e-8));
  };
  check("solution.conductivity", length / 25 / whole);
  check("cathode.polarization_resistance", -1 / whole);
  check("anode.anode.polarization_resistance", -1 / whole);
  check("anode.anode.bag_resistance", -1 / whole);
  check("supply.lead_resistance", -height / whole);
  check("supply.voltage", 1 / volts);
  check("cathode.polarization_offset", -1 / volts);
  check("anode.anode.polarization_offset", -1 / volts);
  check("anode.anode.open_circuit_voltage", -1 / volts);
  check("solution.efficiency", 1);
  check("step.1.duration", 1. / 3600);
  CHECK(share_by(found, "supply.voltage", 2).value() ==
        Approx(1 / volts).epsilon(1e-9));
  CHECK(std::abs(share_by(found, "solution.conductivity", 2).value()) < 1e-9);
}

TEST_CASE("no derivative where there is none", "[sensitivity]") {
  solver::Case c = token();
  SECTION("the supply at both its limits") {
    const solver::Schedule s = solver::run_schedule(c);
    c.supply.voltage_limit = s.last().solved->outcome.point.terminal_voltage;
    const auto found = solver::sensitivities(solver::run_schedule(c), c,
                                             {{Kind::least_judged, 0}});
    CHECK(found.figures[0].bend == "the supply is just at both its limits");
    CHECK(!share_by(found, "solution.conductivity"));
    CHECK(!share_by(found, "supply.current"));
    // Time goes on as it does.
    CHECK(share_by(found, "step.1.duration").value() == Approx(1. / 2400));
    CHECK(share_by(found, "solution.efficiency").value() == Approx(1 / 0.97));
  }
  SECTION("a rectifier just blocked") {
    c = two_rectifiers(0.6, 0.15);
    c.wires.clear();
    set_voltage(c.rectifiers[1].supply, 0.01);
    const solver::Schedule s = solver::run_schedule(c);
    const auto& w = s.last().solved->outcome.point;
    REQUIRE(w.rectifiers[1].limited_by == "blocked");
    set_voltage(c.rectifiers[1].supply, w.rectifiers[1].voltage);
    const auto found = solver::sensitivities(solver::run_schedule(c), c,
                                             {{Kind::least_judged, 0}});
    CHECK(found.figures[0].bend ==
          "rectifier helper is just at the edge of another of its limits");
    CHECK(!share_by(found, "rectifier.main.current"));
  }
  SECTION("two rectifiers that give alike") {
    c = two_rectifiers(0.2, 0.2);
    const auto found =
        solver::sensitivities(solver::run_schedule(c), c,
                              {{Kind::voltage, 0}, {Kind::least_judged, 0}});
    CHECK(found.figures[0].bend ==
          "two rectifiers give alike, and the voltage is that of one");
    CHECK(!share_by(found, "rectifier.helper.current"));
    CHECK(share_by(found, "rectifier.helper.current", 1));
  }
  SECTION("a step that ends with a round") {
    c.section.cut = mesh::Cut::plan;
    c.wires.clear();
    c.depth = 0.02;
    c.steps[0].turning = solver::Turning{4, 150, 0};  // four rounds
    const auto found =
        solver::sensitivities(solver::run_schedule(c), c, {{Kind::least, 0}});
    CHECK(!share_by(found, "step.1.duration"));
    CHECK(share_by(found, "supply.current"));
  }
  SECTION("current density on a point of the efficiency's table") {
    c = tests::channel(0.1, 0.03, 5, 2e-3, 1e-3, 1);
    const double i = 1 / (0.1 / 5 + 3e-3);
    c.solution.efficiency_table = {{10, 0.9}, {i, 0.8}, {100, 0.5}};
    const auto found =
        solver::sensitivities(solver::run_schedule(c), c, {{Kind::least, 0}});
    CHECK(found.figures[0].bend.find("table") != std::string::npos);
    CHECK(!share_by(found, "supply.voltage"));
  }
}

TEST_CASE("derivatives where the surface moves are those as drawn, in shares",
          "[property]") {
  solver::Case c = token();
  c.accuracy.tolerance = 5e-3;
  const auto drawn = compare(c);
  c.growth = true;
  const solver::Schedule s = solver::run_schedule(c);
  const auto grown = solver::sensitivities(s, c, {{Kind::least, 0}});
  CHECK(grown.figures[0].value == s.spreads[0].least.value);
  for (std::size_t k = 0; k < grown.keys.size(); ++k)
    CHECK(share_by(grown, grown.keys[k]).value() ==
          Approx(share_by(drawn, grown.keys[k]).value()).epsilon(1e-6));
}
