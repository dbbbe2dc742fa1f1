// Gas by Faraday's law; leads and resistors by hand.
#include "solver/gas.hpp"

#include "bench_cases.hpp"
#include "solver/adapter.hpp"
#include "solver/result.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

namespace {

/// An ampere for an hour.
solver::Result ampere_hour(double efficiency) {
  solver::Result r;
  r.used = tests::token();
  r.used.solution.efficiency.value = efficiency;
  r.steps.resize(1);
  r.steps[0].duration = 3600;
  r.steps[0].cell.current = 1;
  r.anodes.push_back({"sheet"});
  r.anodes[0].current = 1;
  return r;
}

}  // namespace

TEST_CASE("an ampere hour makes 0.418 l of hydrogen at 0 degC", "[exact]") {
  // 22.414 l/mol / (2 * 26.801 A h/mol) = 0.41816 l at 0 degC and 1 atm, and
  // larger by 298.15 / 273.15 at 25 degC.
  CHECK(solver::gas_volume(solver::gas_made(3600, 2)) ==
        Approx(0.41816e-3 * 298.15 / 273.15).epsilon(5e-5));
  const solver::Gas gas = solver::gas_of(ampere_hour(0.9));
  CHECK(gas.hydrogen == Approx(0.1 * 0.45643e-3).epsilon(5e-5));
  CHECK(gas.oxygen == 0);
  CHECK(solver::gas_of(ampere_hour(1)).hydrogen == 0);
}

TEST_CASE("anodes that do not dissolve give off oxygen or chlorine",
          "[exact]") {
  solver::Result r = ampere_hour(1);
  r.used.anodes[0].soluble = false;
  const solver::Gas gas = solver::gas_of(r);
  CHECK(gas.oxygen == Approx(0.5 * 0.45643e-3).epsilon(5e-5));
  CHECK(gas.chlorine == 0);
  r.used.solution.contains = {"chloride"};
  CHECK(solver::gas_of(r).chlorine == Approx(0.45643e-3).epsilon(5e-5));
  // What its name tells counts, as it does for the cautions.
  r.used.solution.contains.clear();
  r.used.solution.name = "Watts nickel";
  CHECK(solver::gas_of(r).chlorine == Approx(0.45643e-3).epsilon(5e-5));
}

TEST_CASE("the next resistor of twelve a decade") {
  CHECK(solver::next_e12(1) == Approx(1));
  CHECK(solver::next_e12(4.71) == Approx(5.6));
  CHECK(solver::next_e12(8.3) == Approx(10));
  CHECK(solver::next_e12(0.33) == Approx(0.33));
  CHECK(solver::next_e12(26) == Approx(27));
}

TEST_CASE("a resistor in series with a cell", "[exact]") {
  // 9 V, 0.33 A, a cell of 0.76 V: 8.24 / 0.33 = 24.97 ohm, so 27 ohm; then
  // 9 / (27 + 0.76/0.33) = 0.30713 A, 0.30713^2 * 27 = 2.5469 W.
  const auto r = solver::series_resistor(9, 0.33, 0.76, {0.5, 1.1});
  REQUIRE(r);
  CHECK(r->exact == Approx(24.9697).epsilon(1e-5));
  CHECK(r->resistance == Approx(27));
  CHECK(r->current == Approx(0.307137).epsilon(1e-5));
  CHECK(r->heat == Approx(2.54699).epsilon(1e-5));
  CHECK(r->rating == Approx(2 * r->heat));
  CHECK(r->current_band.low == Approx(9 / (27 + 1.1 / 0.33)).epsilon(1e-9));
  CHECK(r->current_band.high == Approx(9 / (27 + 0.5 / 0.33)).epsilon(1e-9));
  CHECK(r->short_circuit == Approx(1.0 / 3));
  CHECK_FALSE(solver::series_resistor(1, 1, 1.5, {1.4, 1.6}));
}

TEST_CASE("wire for a current", "[exact]") {
  // 6 A over 1 m each way: 1 mm2 by the current. The drop along 2 m of it is
  // 1.7241e-8 * 2 * 6 / 1e-6 = 0.2069 V.
  const auto loose = solver::wire_gauge(6, 1, 1);
  REQUIRE(loose);
  CHECK(loose->area == Approx(1e-6));
  CHECK(loose->drop == Approx(0.206892));
  CHECK(loose->awg == 17);  // 1.038 mm2; 18 has 0.823 mm2
  // With 0.1 V to lose 2.07 mm2 are needed: 2.5 mm2, 14 gauge (2.08 mm2).
  const auto tight = solver::wire_gauge(6, 1, 0.1);
  REQUIRE(tight);
  CHECK(tight->area == Approx(2.5e-6));
  CHECK(tight->awg == 14);
  CHECK_FALSE(solver::wire_gauge(1000, 1, 1));
}
