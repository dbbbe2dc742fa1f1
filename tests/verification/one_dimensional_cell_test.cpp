// Slab between two parallel plates with linear polarization at both:
//   i = V / (L/kappa + R_anode + R_cathode)
// Source: series connection; any text on current distribution, for example
// Newman and Thomas-Alyea, Electrochemical Systems, chapter 18 (from memory).
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

#include <fmt/format.h>

using namespace thinspot;

namespace {

struct Cell {
  double voltage, length, conductivity, anode, cathode;
};

/// A disc at the bottom of a round tank, a disc at its top: the same cell in
/// an axisymmetric section.
solver::Case between_discs(const Cell& cell) {
  const double plate = 0.1 * cell.length, width = 0.06;
  const double height = cell.length + 2 * plate;
  solver::Case c = tests::plan_box(width, height, cell.conductivity);
  c.section.cut = mesh::Cut::axisymmetric;
  c.section.tank.level = height;
  c.depth.reset();
  const mesh::Sizes sizes{{"width", width}, {"height", plate}};
  c.section.solids = {
      tests::solid(mesh::Role::part, "part", "plate", sizes, {0, plate / 2}),
      tests::solid(mesh::Role::anode, "anode", "plate", sizes,
                   {0, height - plate / 2})};
  c.cathode.resistance.value = cell.cathode;
  tests::add_anode(c, 1, cell.anode);
  c.supply.voltage = solver::Quantity{cell.voltage, 0};
  return c;
}

/// A linear potential lies in the space of P2: what is left is rounding, times
/// the condition of the system (below 1e6 here).
void record_cell(const Cell& cell, const char* cut, double current_density) {
  const double exact = cell.voltage / (cell.length / cell.conductivity +
                                       cell.anode + cell.cathode);
  tests::record({"1-D cell",
                 "series connection",
                 fmt::format("i at {:g} V, {:g} S/m{} [A/m2]", cell.voltage,
                             cell.conductivity, cut),
                 exact,
                 current_density,
                 1e-9 * exact,
                 {tests::Order::Kind::exact}});
}

}  // namespace

TEST_CASE("1-D cell with polarization at both ends", "[exact][table]") {
  const Cell row =
      GENERATE(Cell{1, 0.1, 5, 2e-4, 1e-3}, Cell{0.5, 0.05, 50, 2e-4, 5e-4},
               Cell{3, 0.08, 0.15, 1e-3, 4e-3}, Cell{2, 0.1, 1.2, 0, 1e-2});
  CAPTURE(row.voltage, row.length, row.conductivity);
  const auto c = tests::channel(row.length, 0.03, row.conductivity, row.cathode,
                                row.anode, row.voltage);
  const auto result = solver::simulate(c);
  const double exact =
      row.voltage / (row.length / row.conductivity + row.anode + row.cathode);
  const auto& i = result.parts[0].current_density.value;
  record_cell(row, "", i.mean);
  CHECK(i.min == Approx(exact).epsilon(1e-8));
  CHECK(i.max == Approx(exact).epsilon(1e-8));
}

TEST_CASE("1-D cell between two discs", "[exact][table]") {
  const Cell row =
      GENERATE(Cell{1, 0.1, 5, 2e-4, 1e-3}, Cell{2, 0.1, 1.2, 0, 1e-2});
  CAPTURE(row.voltage, row.conductivity);
  const auto s = tests::solved(between_discs(row));
  record_cell(row, ", axisymmetric",
              s.outcome.parts[0].current_density_spread.mean);
}

TEST_CASE("a 1-D cell at fixed potentials", "[exact]") {
  const auto result = solver::simulate(tests::channel(0.1, 0.03, 5, 0, 0, 1));
  CHECK(result.parts[0].current_density.value.mean ==
        Approx(1 / (0.1 / 5)).epsilon(1e-9));
}

TEST_CASE("a resistance given at a current density is a Tafel slope there",
          "[exact]") {
  // eta = R_at * at whatever the current, so V = i (L/kappa + R_a) + R_at at.
  auto c = tests::channel(0.1, 0.03, 5, 1e-3, 0, 1);
  c.cathode.at = 100;
  const auto result = solver::simulate(c);
  const double exact = (1 - 1e-3 * 100) / (0.1 / 5);
  CHECK(result.parts[0].current_density.value.mean ==
        Approx(exact).epsilon(1e-8));
}
