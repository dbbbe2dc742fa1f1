// Haring-Blum cell with a linear law at both plates. With W = kappa R / l over
// the near distance l, both ways are resistances in series:
//   M = (K + W) / (1 + W);  Field 100 W / (2 + W);
//   Haring-Blum 100 (K - 1) W / (K (1 + W))
// Sources: Haring-Blum as in Soderberg, Plating, March 1952; Field from
// memory; the closed forms follow from the series connection.
#include "solver/throwing_power.hpp"
#include "bench_cases.hpp"

#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace thinspot;
using solver::kNearPlate;

namespace {

/// @param wagner  over the near distance
solver::Case solution(double wagner) {
  solver::Case c = tests::token();
  c.cathode.at.reset();
  c.cathode.resistance.value =
      wagner * kNearPlate / c.solution.conductivity.value;
  return c;
}

}  // namespace

TEST_CASE("a Haring-Blum cell has its closed forms", "[exact]") {
  struct Row {
    double wagner, mass_ratio, field;
  };
  const Row row =
      GENERATE(Row{0.1, 4.636363636, 4.761904762}, Row{0.25, 4.2, 11.11111111},
               Row{0.5, 11.0 / 3, 20}, Row{1, 3, 33.33333333},
               Row{2, 7.0 / 3, 50}, Row{5, 5.0 / 3, 71.42857143});
  CAPTURE(row.wagner);
  const auto t = solver::throwing_power(solution(row.wagner), 150);
  // The field lies in the space of P2; what is left is rounding times the
  // condition of the system (below 1e6), and the digits of the table.
  CHECK(t.wagner == Approx(row.wagner).epsilon(1e-12));
  CHECK(t.mass_ratio == Approx(row.mass_ratio).epsilon(2e-9));
  CHECK(t.field == Approx(row.field).epsilon(1e-8));
  const double blum = 80 * row.wagner / (1 + row.wagner);
  CHECK(t.haring_blum == Approx(blum).epsilon(1e-8));
}

TEST_CASE("without polarization distances alone decide", "[exact]") {
  const auto t = solver::throwing_power(solution(0), 150);
  CHECK(t.mass_ratio == Approx(5).epsilon(1e-9));
  CHECK(t.field == Approx(0).margin(1e-6));
  CHECK(t.haring_blum == Approx(0).margin(1e-6));
}

TEST_CASE("a large slope makes both plates alike", "[exact]") {
  const auto t = solver::throwing_power(solution(1e5), 150);
  CHECK(t.mass_ratio == Approx(1 + 4 / (1 + 1e5)).epsilon(1e-8));
  CHECK(t.field > 99.99);
}

TEST_CASE("a Tafel slope is taken at the mean of both plates", "[exact]") {
  solver::Case c = solution(1);
  c.cathode.at = 100;
  // Half the slope at twice the density: W = 0.5.
  CHECK(solver::throwing_power(c, 200).mass_ratio ==
        Approx(5.5 / 1.5).epsilon(1e-9));
}

TEST_CASE("what is uncertain of the solution is uncertain of its throw",
          "[exact]") {
  solver::Case c = solution(1);
  c.solution.conductivity.plus_minus = 0.3 * c.solution.conductivity.value;
  c.cathode.resistance.plus_minus = 0.4 * c.cathode.resistance.value;
  const auto t = solver::throwing_power(c, 150);
  // W = 1 +- 0.5.
  CHECK(t.mass_ratio_band.low == Approx(6.5 / 2.5).epsilon(1e-8));
  CHECK(t.mass_ratio_band.high == Approx(5.5 / 1.5).epsilon(1e-8));
  CHECK(t.field_band.low == Approx(100 * 0.5 / 2.5).epsilon(1e-8));
  CHECK(t.field_band.high == Approx(100 * 1.5 / 3.5).epsilon(1e-8));
}

TEST_CASE("a Tafel law counts with its slope at the mean", "[exact]") {
  solver::Case c = solution(1);
  c.cathode = {};
  c.cathode.law = solver::Law::tafel;
  c.cathode.exchange_current_density = {1, 0};
  c.cathode.tafel_slope = {0.12, 0.03};
  const auto t = solver::throwing_power(c, 200);
  // d eta / d i = b / (i ln 10).
  const double slope = 0.12 / std::log(10.0) / 200;
  CHECK(t.wagner ==
        Approx(c.solution.conductivity.value * slope / solver::kNearPlate));
  CHECK(t.mass_ratio > 1);
  CHECK(t.mass_ratio < 5);
  CHECK(t.field_band.low < t.field);
  CHECK(t.field_band.high > t.field);
}

TEST_CASE("no current has no throwing power") {
  CHECK_THROWS_AS(solver::throwing_power(solution(1), 0), InputError);
}
