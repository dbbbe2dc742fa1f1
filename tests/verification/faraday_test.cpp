// Thickness per time at 1 A/dm2 and full efficiency.
// Source: "Theoretical precipitation amount of plating", MISUMI Surface
// Finishing Tutorial #166 (2013): copper(II) 0.222, nickel 0.205 um per
// A min/dm2; nickel 12.3 um/h is the widely printed handbook value (memory).
#include "bench_cases.hpp"
#include "solved.hpp"
#include "solver/deposit.hpp"
#include "solver/simulate.hpp"

#include <catch2/catch.hpp>

using namespace thinspot;

TEST_CASE("Faraday's law against printed rates", "[exact]") {
  const double minute_at_1_A_dm2 = 60 * 100;  // [C/m2]
  // The table rounds to 0.001 um and takes a density of 8.92 for copper where
  // we take 8.96: 0.25 % and 0.5 %.
  const double um = 1e6;
  CHECK(um * solver::growth_per_charge(tests::copper()) * minute_at_1_A_dm2 ==
        Approx(0.222).epsilon(0.0075));
  CHECK(um * solver::growth_per_charge(tests::nickel()) * minute_at_1_A_dm2 ==
        Approx(0.205).epsilon(0.0025));
  CHECK(um * solver::growth_per_charge(tests::nickel()) * 60 *
            minute_at_1_A_dm2 ==
        Approx(12.3).epsilon(0.004));
  // 1.1855 g of copper an ampere hour: M/(2F), by hand.
  CHECK(3600e3 * solver::mass_per_charge(tests::copper()) ==
        Approx(1.185494).epsilon(1e-6));
}

TEST_CASE("thickness of a whole run by Faraday's law", "[exact][table]") {
  // i t M / (n F rho) in a 1-D cell at 1 A/dm2 for an hour; masses of IUPAC,
  // F = e N_A of the SI.
  const bool of_copper = GENERATE(true, false);
  const solver::Metal metal = of_copper ? tests::copper() : tests::nickel();
  auto c = tests::channel(0.1, 0.03, 5, 1e-3, 2e-4, 1);
  c.solution.metal = metal;
  c.supply = {};
  c.supply.current_density = solver::Quantity{100, 0};
  const auto result = solver::simulate(c);
  const double charge = 1.602176634e-19 * 6.02214076e23;
  const double exact =
      1e6 * 100 * 3600 * metal.molar_mass / (2 * charge * metal.density);
  tests::record("Faraday's law", "IUPAC masses, SI constants",
                metal.name + ", an hour at 1 A/dm2 [um]", exact,
                {1e6 * result.parts[0].thickness.value.mean, 1e-9 * exact},
                {tests::Order::Kind::exact});
}

TEST_CASE("mass, mean thickness and efficiency agree", "[exact]") {
  auto c = tests::token();
  c.solution.efficiency.value = 0.93;
  const auto result = solver::simulate(c);
  const auto& part = result.parts[0];
  const double charge = part.current * 2400;
  CHECK(part.mass ==
        Approx(0.93 * charge * 0.063546 / (2 * 96485.33212)).epsilon(1e-9));
  CHECK(part.thickness.value.mean ==
        Approx(part.mass / (8960 * part.area)).epsilon(1e-9));
  // The real area of a token with rounded edges: two flats, a rim and two
  // quarter tori, by Pappus.
  const double pi = 3.14159265358979, r = 0.0003, flat = 0.015 - r;
  const double area = 2 * pi * flat * flat + 2 * pi * 0.015 * (0.0024 - 2 * r) +
                      2 * 2 * pi * (flat * pi / 2 * r + r * r);
  // Quadratic edges, two on a quarter round of angle a each, leave a^4 / 960 =
  // 4e-4 of its length; the four roundings are 3 % of the outline.
  CHECK(part.area == Approx(area).epsilon(2e-5));
}
