// Slab between two parallel plates with linear polarization at both:
//   i = V / (L/kappa + R_anode + R_cathode)
// Source: series connection; any text on current distribution, for example
// Newman and Thomas-Alyea, Electrochemical Systems, chapter 18 (from memory).
#include "bench_cases.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

namespace {

struct Row {
  double voltage, length, conductivity, anode, cathode;
};

}  // namespace

TEST_CASE("1-D cell with polarization at both ends", "[exact]") {
  const Row row =
      GENERATE(Row{1, 0.1, 5, 2e-4, 1e-3}, Row{0.5, 0.05, 50, 2e-4, 5e-4},
               Row{3, 0.08, 0.15, 1e-3, 4e-3}, Row{2, 0.1, 1.2, 0, 1e-2},
               Row{1, 0.1, 5, 0, 0});
  CAPTURE(row.voltage, row.length, row.conductivity);
  const auto c = tests::channel(row.length, 0.03, row.conductivity, row.cathode,
                                row.anode, row.voltage);
  const auto result = solver::simulate(c);
  const double exact =
      row.voltage / (row.length / row.conductivity + row.anode + row.cathode);
  // A linear potential lies in the space of P2: what is left is rounding,
  // times the condition of the system (below 1e6 here).
  const auto& i = result.parts[0].current_density.value;
  CHECK(i.mean == Approx(exact).epsilon(1e-9));
  CHECK(i.min == Approx(exact).epsilon(1e-8));
  CHECK(i.max == Approx(exact).epsilon(1e-8));
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
