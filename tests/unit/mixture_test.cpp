// What a recipe conducts, against handbooks.
#include "solver/mixture.hpp"

#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "mesh/errors.hpp"
#include "solver/acidity.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>
#include <vector>

using namespace thinspot;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinRel;
using solver::Dose;
using solver::MixtureConductivity;
using solver::Trust;

namespace {

constexpr double kTwenty = 293.15, kTwentyFive = 298.15;  // [K]

const std::vector<solver::Compound>& compounds() {
  static const auto all = io::read_compounds(io::library_folder());
  return all;
}

/// @param parts  names and moles in each litre
std::vector<Dose> doses(
    const std::vector<std::pair<std::string, double>>& parts) {
  std::vector<Dose> result;
  for (const auto& [name, molar] : parts) {
    const io::Ware ware = io::find_ware(compounds(), name);
    REQUIRE(ware.compound);
    result.push_back({ware.compound, 1000 * molar});
  }
  return result;
}

MixtureConductivity of(const std::vector<std::pair<std::string, double>>& parts,
                       double temperature) {
  return solver::conductivity_of(doses(parts), compounds(), temperature);
}

bool within_band(const MixtureConductivity& found, double value) {
  return std::abs(found.conductivity.value - value) <=
         found.conductivity.plus_minus;
}

}  // namespace

// CRC Handbook, Electrical Conductivity of Aqueous Solutions, 20 degC,
// converted to moles by densities from memory; 25 degC by 2 % a kelvin. Digits
// and densities: 1 %; between the points of the table another 3 %.
TEST_CASE("Plain copper sulfate conducts as the handbook says", "[solution]") {
  const std::vector<std::array<double, 3>> rows{
      {0.05, 0.438, 0.482}, {0.10, 0.770, 0.847}, {0.20, 1.305, 1.435},
      {0.25, 1.544, 1.698}, {0.50, 2.554, 2.809}, {0.75, 3.373, 3.711},
      {1.00, 4.003, 4.403}};
  for (const auto& [molar, cold, warm] : rows) {
    CAPTURE(molar);
    const auto at_20 = of({{"copper sulfate", molar}}, kTwenty);
    CHECK_THAT(at_20.conductivity.value, WithinRel(cold, 0.04));
    CHECK(within_band(at_20, cold));
    CHECK(at_20.trust == Trust::measured);
    CHECK(within_band(of({{"copper sulfate", molar}}, kTwentyFive), warm));
  }
  // CRC Handbook, equivalent conductance of copper sulfate at 25 degC and 0.1
  // equivalents, 50.55 S cm2, from memory: another source than the table.
  CHECK(within_band(of({{"copper sulfate", 0.05}}, kTwentyFive), 0.506));
}

// Equivalent conductance at 25 degC, CRC Handbook, from memory: none of these
// is in the tables that the model reads.
TEST_CASE("Salts far below the tables' first points conduct as ions do",
          "[solution]") {
  const auto at = [](const char* name, double molar) {
    return of({{name, molar}}, kTwentyFive);
  };
  CHECK(within_band(at("sodium chloride", 0.01), 0.1185));     // 118.5 S cm2
  CHECK(within_band(at("potassium chloride", 0.01), 0.1412));  // NIST standard
  CHECK(within_band(at("potassium chloride", 0.1), 1.2825));   // 0.1 molal
  CHECK(within_band(at("hydrochloric acid", 0.01), 0.412));
  CHECK(within_band(at("copper sulfate", 0.005), 0.0831));  // 83.1 S cm2
}

TEST_CASE("Acetic acid alone conducts next to nothing", "[solution]") {
  // CRC Handbook: 5 % is 1.2 mS/cm at 20 degC; 0.838 mol/l at 1.006 g/cm3.
  const auto vinegar = of({{"acetic acid", 0.838}}, kTwenty);
  CHECK_THAT(vinegar.conductivity.value, WithinRel(0.12, 0.02));
  CHECK(vinegar.trust == Trust::measured);
  CHECK(vinegar.conductivity.plus_minus > 0.1 * 0.12);
}

// What plating solutions conduct, by figures of the trade, from memory; see
// cases/library/solutions.toml. The range is theirs, and both bands must meet.
TEST_CASE("Mixtures conduct as such solutions do", "[solution]") {
  struct Row {
    std::vector<std::pair<std::string, double>> parts;
    double temperature, low, high;
  };
  const std::vector<Row> rows{
      // Acid copper: 0.8 M copper, 0.6 M acid.
      {{{"copper sulfate", 0.8}, {"sulfuric acid", 0.6}}, kTwentyFive, 17, 22},
      // High throw: 0.27 M copper, 2.1 M acid.
      {{{"copper sulfate", 0.27}, {"sulfuric acid", 2.1}}, kTwentyFive, 50, 60},
      // Low acid: 40 g/l copper, 10 g/l acid.
      {{{"copper sulfate", 0.63}, {"sulfuric acid", 0.1}}, kTwentyFive, 5, 6.5},
      // Watts nickel at 55 degC and at 25 degC.
      {{{"nickel sulfate", 1.0}, {"nickel chloride", 0.16}}, 328.15, 8, 10},
      {{{"nickel sulfate", 1.0}, {"nickel chloride", 0.16}}, kTwentyFive, 5, 6},
      // Chloride zinc.
      {{{"zinc chloride", 0.45}, {"potassium chloride", 2.75}},
       kTwentyFive,
       20,
       25},
      // Vinegar with a little nickel, without salt.
      {{{"acetic acid", 0.8}, {"nickel acetate", 0.02}}, kTwentyFive, 0.2, 0.4},
  };
  for (const Row& row : rows) {
    const MixtureConductivity found = of(row.parts, row.temperature);
    CAPTURE(row.parts.front().first, row.low, found.conductivity.value,
            found.conductivity.plus_minus);
    CHECK(found.conductivity.value - found.conductivity.plus_minus <=
          (row.low + row.high) / 2);
    CHECK(found.conductivity.value + found.conductivity.plus_minus >=
          (row.low + row.high) / 2);
    CHECK(found.trust != Trust::measured);
  }
}

TEST_CASE("The band widens with the distance from the data", "[solution]") {
  const auto relative = [](double molar, double temperature) {
    const auto found = of({{"copper sulfate", molar}}, temperature);
    return found.conductivity.plus_minus / found.conductivity.value;
  };
  CHECK(relative(0.5, 333.15) > relative(0.5, kTwentyFive));
  CHECK(relative(0.5, kTwentyFive) > relative(0.5, kTwenty));
  // 15 % is the last point: 1.1 mol/l.
  CHECK(relative(1.3, kTwenty) > 0.5);
  const auto beyond = of({{"copper sulfate", 1.3}}, kTwenty);
  CHECK(beyond.trust == Trust::guess);
  // A factor of two to either side of the best guess: 0.5 .. 2.
  CHECK_THAT(relative(1.3, kTwenty), WithinRel(0.6, 0.01));
}

TEST_CASE(
    "What does not conduct is refused, acid and base together are a "
    "guess",
    "[solution]") {
  CHECK_THROWS_AS(of({{"boric acid", 0.5}}, kTwenty), InputError);
  CHECK(
      of({{"sulfuric acid", 0.5}, {"sodium hydroxide", 0.5}}, kTwenty).trust ==
      Trust::guess);
}

TEST_CASE("How acid a solution is, in words", "[solution]") {
  const auto words =
      [](const std::vector<std::pair<std::string, double>>& parts) {
        return solver::acidity_of(doses(parts));
      };
  CHECK_THAT(words({{"copper sulfate", 0.8}, {"sulfuric acid", 0.6}}),
             Contains("strongly acid"));
  CHECK_THAT(words({{"hydrochloric acid", 0.01}}), Contains("pH about 1 to 3"));
  CHECK_THAT(words({{"copper sulfate", 0.8}}), Contains("pH about 3 to 6"));
  CHECK_THAT(words({{"acetic acid", 0.8}, {"nickel acetate", 0.02}}),
             Contains("pH about 2 to 5"));
  CHECK_THAT(words({{"sodium chloride", 1}}), Contains("neutral"));
  CHECK_THAT(words({{"zinc oxide", 0.1}, {"sodium hydroxide", 3}}),
             Contains("strongly alkaline"));
  // The base takes the acid up, one for one.
  CHECK_THAT(words({{"hydrochloric acid", 1}, {"sodium hydroxide", 1.05}}),
             Contains("alkaline, pH about 11"));
}

TEST_CASE("Share of the current that metal ions carry", "[solution]") {
  // Alone by the ions' conductance: 53.6 / (53.6 + 80.0), CRC from memory.
  CHECK_THAT(solver::transference(doses({{"copper sulfate", 0.5}}), "copper"),
             WithinRel(53.6 / 133.6, 1e-9));
  // Beside acid: 1.6 x 53.6 of 1.6 x 133.6 + 1.2 x 429.8.
  CHECK_THAT(
      solver::transference(
          doses({{"copper sulfate", 0.8}, {"sulfuric acid", 0.6}}), "copper"),
      WithinRel(85.76 / (213.76 + 515.76), 1e-9));
}

TEST_CASE("Names of substances as people write them", "[solution]") {
  const auto strength = [](const char* name) {
    const io::Ware ware = io::find_ware(compounds(), name);
    REQUIRE(ware.compound);
    return std::pair(ware.compound->name, ware.strength.value_or(0));
  };
  CHECK(strength("Sulphuric Acid 96 %") ==
        std::pair(std::string("sulfuric acid"), 0.96));
  CHECK(strength("vinegar") == std::pair(std::string("acetic acid"), 0.05));
  CHECK(strength("vinegar 8%") == std::pair(std::string("acetic acid"), 0.08));
  CHECK(strength("copper sulphate").first == "copper sulfate pentahydrate");
  CHECK_FALSE(io::find_ware(compounds(), "unobtainium").compound);
}
