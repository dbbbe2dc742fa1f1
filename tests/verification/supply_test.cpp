// Series resistance and supply limit: V_cell = I R_cell,
// I = V_s / (R_cell + R_lead); beyond a limit the limit holds.
// Source: Ohm's and Kirchhoff's laws.
#include "bench_cases.hpp"
#include "mesh/errors.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

namespace {

// 1 m2 of electrode (depth 1 m, height 1 m) over 0.1 m at 0.1/0.9 S/m: the
// cell has 0.9 ohm.
solver::Case cell() {
  auto c = tests::channel(0.1, 1, 0.1 / 0.9, 0, 0, 3);
  c.supply = {};
  return c;
}

}  // namespace

TEST_CASE("voltage over leads and cell", "[exact]") {
  auto c = cell();
  c.supply.voltage = solver::Quantity{3, 0};
  c.supply.lead_resistance.value = 0.1;
  const auto r = solver::simulate(c);
  CHECK(r.cell.current == Approx(3).epsilon(1e-9));
  CHECK(r.cell.voltage == Approx(3).epsilon(1e-9));
  CHECK(r.cell.limited_by == "voltage");
}

TEST_CASE("current within and beyond the voltage limit", "[exact]") {
  auto c = cell();
  c.supply.current = solver::Quantity{2, 0};
  c.supply.lead_resistance.value = 0.1;
  c.supply.voltage_limit = 3;
  auto r = solver::simulate(c);
  CHECK(r.cell.voltage == Approx(2).epsilon(1e-9));
  CHECK(r.cell.limited_by == "current");
  c.supply.current->value = 20;
  r = solver::simulate(c);
  CHECK(r.cell.current == Approx(3).epsilon(1e-9));
  CHECK(r.cell.voltage == Approx(3).epsilon(1e-9));
  CHECK(r.cell.limited_by == "voltage limit");
}

TEST_CASE("current density is the mean over the part; wires come on top",
          "[exact]") {
  auto c = tests::token();
  c.supply = {};
  c.supply.current_density = solver::Quantity{200, 0};
  c.wires = {{"1", 0.0008, 0.035, false}, {"2", 0.001, 0.03, true}};
  const auto r = solver::simulate(c);
  CHECK(r.parts[0].current_density.value.mean == Approx(200).epsilon(1e-9));
  const double bare = 3.14159265358979 * 0.0008 * 0.035;
  CHECK(r.wires[0].current == Approx(2 * 200 * bare).epsilon(1e-9));
  CHECK(r.wires[1].current == 0);
  CHECK(r.cell.current ==
        Approx(r.parts[0].current + r.wires[0].current).epsilon(1e-12));
  CHECK(r.anodes[0].current == Approx(r.cell.current).epsilon(1e-9));
}

TEST_CASE("open circuit voltage and offset add to what the meter reads",
          "[exact]") {
  auto c = cell();
  c.supply.current = solver::Quantity{1, 0};
  c.anodes[0].open_circuit_voltage.value = 0.3;
  c.cathode.offset.value = 0.25;
  c.anodes[0].polarization.offset.value = 0.05;
  CHECK(solver::simulate(c).cell.voltage == Approx(1.5).epsilon(1e-9));
  c.supply = {};
  c.supply.voltage = solver::Quantity{0.5, 0};
  CHECK_THROWS_AS(solver::simulate(c), InputError);
}

TEST_CASE("bands carry stated uncertainty through", "[exact]") {
  // V = I R with R ~ 1/kappa and kappa +- 10 %: 1/0.9 and 1/1.1.
  auto c = cell();
  c.supply.current = solver::Quantity{1, 0};
  c.solution.conductivity.plus_minus = 0.1 * c.solution.conductivity.value;
  auto r = solver::simulate(c);
  CHECK(r.cell.voltage_band.high == Approx(0.9 / 0.9).epsilon(1e-9));
  CHECK(r.cell.voltage_band.low == Approx(0.9 / 1.1).epsilon(1e-9));
  // Two independent inputs add by squares: 3 % and 4 % make 5 %.
  c.solution.conductivity.plus_minus = 0;
  c.solution.efficiency = {0.5, 0.015};
  c.steps[0].duration.plus_minus = 0.04 * 3600;
  r = solver::simulate(c);
  const auto& t = r.parts[0].thickness;
  CHECK(t.mean_band.high / t.value.mean == Approx(1.05).epsilon(1e-9));
  CHECK(t.mean_band.low / t.value.mean == Approx(0.95).epsilon(1e-9));
}

TEST_CASE("a voltage that polarization alone takes gives no number",
          "[property]") {
  // R at = 2.6e-4 ohm m2 * 200 A/m2 = 52 mV is gone before current flows.
  auto c = tests::token();
  c.supply = {};
  c.supply.voltage = solver::Quantity{GENERATE(0.001, 0.02, 0.052), 0};
  CHECK_THROWS_AS(solver::simulate(c), InputError);
  c.supply.voltage->value = 0.34;
  CHECK(solver::simulate(c).cell.current > 0.1);
  // A small current that is set is the user's own, and is taken.
  c.supply = {};
  c.supply.current = solver::Quantity{1e-5, 0};
  CHECK(solver::simulate(c).cell.current == Approx(1e-5).epsilon(1e-9));
}
