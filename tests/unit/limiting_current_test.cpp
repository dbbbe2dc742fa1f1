// How much current the metal in a solution can carry.
#include "solver/limiting_current.hpp"

#include "solver/ions.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace thinspot;
using Catch::Matchers::WithinRel;

TEST_CASE("Diffusivities by Nernst and Einstein", "[solution]") {
  // CRC Handbook, diffusion at infinite dilution, 25 degC, from memory: copper
  // 0.714, nickel 0.661, zinc 0.703, silver 1.648, chloride 2.032, each
  // 1e-9 m2/s; the last digit and the charge's share: 0.5 %.
  const auto d = [](const char* ion) {
    return 1e9 * solver::diffusivity(*solver::find_ion(ion));
  };
  CHECK_THAT(d("Cu"), WithinRel(0.714, 0.005));
  CHECK_THAT(d("Ni"), WithinRel(0.661, 0.005));
  CHECK_THAT(d("Zn"), WithinRel(0.703, 0.005));
  CHECK_THAT(d("Ag"), WithinRel(1.648, 0.005));
  CHECK_THAT(d("Cl"), WithinRel(2.032, 0.005));
}

// Wilke, Eisenberg and Tobias 1953 as used with densification 0.14 a mole and a
// diffusivity of 5 to 6e-10 m2/s at a plate 50 mm high, from memory. That range
// of diffusivities alone is 7 % of the limit: D^(3/4).
TEST_CASE("A still solution brings copper by its own convection",
          "[solution]") {
  const std::array<std::array<double, 2>, 4> rows{
      {{0.1, 64}, {0.25, 186}, {0.5, 411}, {0.8, 683}}};
  for (const auto& [molar, limit] : rows) {
    const auto found = solver::limiting_current(
        {"Cu", 2, 1000 * molar, 0, 298.15, "still", 0.05});
    REQUIRE(found);
    CAPTURE(molar, found->value);
    CHECK(std::abs(found->value - limit) <= found->plus_minus);
    CHECK_THAT(found->value, WithinRel(limit, 0.15));
  }
}

TEST_CASE("Limiting current by hand", "[solution]") {
  // n F D c / layer with D = 0.75 x 0.714e-9 m2/s and layers of 0.03 to 0.1 mm.
  const auto found =
      solver::limiting_current({"Cu", 2, 500, 0, 298.15, "strong", {}});
  const double each = 2 * 96485.33212 *
                      solver::diffusivity_in_solution("Cu", 298.15).value * 500;
  CHECK_THAT(solver::diffusivity_in_solution("Cu", 298.15).value,
             WithinRel(5.35e-10, 0.005));
  REQUIRE(found);
  CHECK_THAT(found->value,
             WithinRel((each / 0.03e-3 + each / 0.1e-3) / 2, 1e-9));
  CHECK(found->value - found->plus_minus <= each / 0.1e-3 * 1.0001);
  CHECK(found->value + found->plus_minus >= each / 0.03e-3 * 0.9999);
}

TEST_CASE("What helps and what does not", "[solution]") {
  const auto limit = [](const char* stirring, double carried, double kelvin) {
    return solver::limiting_current(
               {"Ni", 2, 100, carried, kelvin, stirring, {}})
        ->value;
  };
  CHECK(limit("gentle", 0, 298.15) > limit("still", 0, 298.15));
  CHECK(limit("strong", 0, 298.15) > limit("gentle", 0, 298.15));
  CHECK(limit("rotating", 0, 298.15) > limit("strong", 0, 298.15));
  CHECK_THAT(limit("still", 0.4, 298.15),
             WithinRel(limit("still", 0, 298.15) / 0.6, 1e-9));
  CHECK(limit("still", 0, 328.15) > limit("still", 0, 298.15));
  CHECK_FALSE(solver::limiting_current({"", 2, 100, 0, 298.15, "still", {}}));
  CHECK_FALSE(solver::limiting_current({"Cu", 2, 0, 0, 298.15, "still", {}}));
}
