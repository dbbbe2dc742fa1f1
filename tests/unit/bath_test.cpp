// What plating takes out of a solution, by hand from Faraday's law.
#include "solver/bath.hpp"
#include "solver/gas.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;
using Catch::Matchers::WithinRel;

namespace {

// IUPAC atomic weights, densities of the wrought metals.
const solver::Metal kCopper{"copper", 63.546e-3, 2, 8960, ""};
const solver::Metal kNickel{"nickel", 58.6934e-3, 2, 8908, ""};
constexpr double kHour = 3600;

}  // namespace

TEST_CASE("Metal moved by an ampere hour", "[bath]") {
  // Handbook: copper 1.1855 g, nickel 1.0950 g an ampere hour.
  CHECK_THAT(solver::metal_moved(kCopper, kHour, {1, 0}).value,
             WithinRel(1.185494e-3, 1e-6));
  CHECK_THAT(solver::metal_moved(kNickel, kHour, {0.95, 0.02}).value,
             WithinRel(0.95 * 1.094966e-3, 1e-6));
  CHECK_THAT(solver::metal_moved(kNickel, kHour, {0.95, 0.02}).plus_minus,
             WithinRel(0.02 * 1.094966e-3, 1e-6));
}

TEST_CASE("Depletion without an anode that gives back", "[bath]") {
  // 500 ml of 0.36 mol/l copper hold 11.438 g; a run of 0.33 A for 40 min takes
  // 0.22 A h = 0.26081 g; 20 % of it are 2.2877 g: 8 runs, not 9.
  const double metal = solver::metal_in(kCopper, 360, 500e-6);
  CHECK_THAT(metal, WithinRel(11.43828e-3, 1e-6));
  const double taken =
      solver::metal_moved(kCopper, 0.33 * 40 * 60, {1, 0}).value;
  CHECK_THAT(taken, WithinRel(0.2608087e-3, 1e-6));
  CHECK(solver::runs_down_to(solver::kTopUpAt, metal, taken) == 8);
  CHECK(solver::share_left(metal, taken, 8) > solver::kTopUpAt);
  CHECK(solver::share_left(metal, taken, 9) < solver::kTopUpAt);
  // 11.438 g / 1.1855 g = 9.648 A h.
  CHECK_THAT(solver::charge_for(kCopper, metal, {1, 0}) / kHour,
             WithinRel(9.64853, 1e-5));
}

TEST_CASE("Life of an anode", "[bath]") {
  // 2 mm x 70 mm x 30 mm of copper are 37.632 g; seven tenths are 26.342 g, at
  // 0.33 A 0.39121 g an hour: 67.33 h.
  const double mass = 2e-3 * 70e-3 * 30e-3 * 8960;
  CHECK_THAT(solver::anode_life(kCopper, mass, 0.33) / kHour,
             WithinRel(67.334, 1e-4));
}

TEST_CASE("Nickel dissolved into acid", "[bath]") {
  // 0.3 A for 4 h are 1.2 A h: 1.31396 g at full efficiency, 0.044774 mol of
  // charge, as much acid; 0.022387 mol of hydrogen, 0.548 l at 25 degC and 1
  // atm.
  const solver::Dissolving d =
      solver::dissolved(kNickel, 0.3, 4 * kHour, {0.9, 0.1});
  CHECK_THAT(d.charge / kHour, WithinRel(1.2, 1e-12));
  CHECK_THAT(d.mass.value, WithinRel(0.9 * 1.313959e-3, 1e-5));
  CHECK_THAT(d.mass.plus_minus, WithinRel(0.1 * 1.313959e-3, 1e-5));
  CHECK_THAT(d.acid.value, WithinRel(0.9 * 0.0447736, 1e-5));
  CHECK_THAT(d.hydrogen.value, WithinRel(0.0223868, 1e-5));
  CHECK_THAT(1e3 * solver::gas_volume(d.hydrogen.value),
             WithinRel(0.5477, 1e-4));
}
