#include "io/units.hpp"
#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <numbers>
#include <string>
#include <thread>
#include <vector>

using namespace thinspot;
using namespace thinspot::io;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

/// A handful of roundings.
constexpr double kRounding = 1e-14;

struct Sample {
  const char* text;
  Dimension dimension;
  double value;
  double plus_minus = 0;
};

// 1 in = 25.4 mm and 1 lb = 0.45359237 kg by the international agreement of
// 1959; the US gallon is 231 cubic inches; 0 degC = 273.15 K.
constexpr double kInch = 0.0254;
constexpr double kFoot = 12 * kInch;
constexpr double kPi = std::numbers::pi;

const std::vector<Sample> kSamples{
    {"24 mm", Dimension::length, 0.024},
    {"+24 mm", Dimension::length, 0.024},
    {"-24mm", Dimension::length, -0.024},
    {" 1.5  in ", Dimension::length, 1.5 * kInch},
    {"1.5 Inches", Dimension::length, 1.5 * kInch},
    {"1.5\"", Dimension::length, 1.5 * kInch},
    {"2'", Dimension::length, 2 * kFoot},
    {"2 thou", Dimension::length, 2e-3 * kInch},
    {"2 mil", Dimension::length, 2e-3 * kInch},
    {"3 um", Dimension::length, 3e-6},
    {"3 \u00B5m", Dimension::length, 3e-6},
    {"3 \u03BCm", Dimension::length, 3e-6},
    {"1e2 mm", Dimension::length, 0.1},
    {"0.16 dm2", Dimension::area, 1.6e-3},
    {"16 cm\u00B2", Dimension::area, 1.6e-3},
    {"2 sq in", Dimension::area, 2 * kInch* kInch},
    {"800 ml", Dimension::volume, 8e-4},
    {"1 gal", Dimension::volume, 231 * kInch* kInch* kInch},
    {"1 lb", Dimension::mass, 0.45359237},
    {"20 min", Dimension::duration, 1200},
    {"20 mins", Dimension::duration, 1200},
    {"1.5 h", Dimension::duration, 5400},
    {"1.5 hrs", Dimension::duration, 5400},
    {"30 deg", Dimension::angle, kPi / 6},
    {"30\u00B0", Dimension::angle, kPi / 6},
    {"0.25 rev", Dimension::angle, kPi / 2},
    {"25 degC", Dimension::temperature, 298.15},
    {"25 C", Dimension::temperature, 298.15},
    {"25 \u00B0C", Dimension::temperature, 298.15},
    {"77 F", Dimension::temperature, 298.15},
    {"77 deg F", Dimension::temperature, 298.15},
    {"300 K", Dimension::temperature, 300},
    {"330 mA", Dimension::current, 0.33},
    {"1.5 Volts", Dimension::voltage, 1.5},
    {"2 A/dm2", Dimension::current_density, 200},
    {"2 A/dm^2", Dimension::current_density, 200},
    {"2 A/dm\u00B2", Dimension::current_density, 200},
    {"2 A dm-2", Dimension::current_density, 200},
    {"2 ASD", Dimension::current_density, 200},
    {"2 asd", Dimension::current_density, 200},
    {"20 mA\u00B7cm\u207B\u00B2", Dimension::current_density, 200},
    {"2 ASF", Dimension::current_density, 2 / (kFoot * kFoot)},
    {"2 A/sq ft", Dimension::current_density, 2 / (kFoot * kFoot)},
    {"100 m\u03A9", Dimension::resistance, 0.1},
    {"2.6 ohm cm2", Dimension::area_resistance, 2.6e-4},
    {"2.6 \u03A9\u00B7cm\u00B2", Dimension::area_resistance, 2.6e-4},
    {"2.6 ohm*cm^2", Dimension::area_resistance, 2.6e-4},
    {"0.18 S/cm", Dimension::conductivity, 18},
    {"180 mS/cm", Dimension::conductivity, 18},
    {"0.18 1/(ohm cm)", Dimension::conductivity, 18},
    {"6 rpm", Dimension::rate, 0.1},
    {"6 rev/min", Dimension::rate, 0.1},
    {"6 1/min", Dimension::rate, 0.1},
    {"95 %", Dimension::fraction, 0.95},
    {"0.95", Dimension::fraction, 0.95},
    {"63.546 g/mol", Dimension::molar_mass, 0.063546},
    {"8.96 g/cm3", Dimension::mass_density, 8960},
    {"18 S/m +- 2 S/m", Dimension::conductivity, 18, 2},
    {"18 +- 2 S/m", Dimension::conductivity, 18, 2},
    {"18 S/m \u00B1 20 mS/cm", Dimension::conductivity, 18, 2},
    {"18 S/m +/- 10 %", Dimension::conductivity, 18, 1.8},
    {"-2 V +- 10 %", Dimension::voltage, -2, 0.2},
    {"16 S/m .. 20 S/m", Dimension::conductivity, 18, 2},
    {"16 .. 20 S/m", Dimension::conductivity, 18, 2},
    {"25 degC +- 9 degF", Dimension::temperature, 298.15, 5},
    {"20 degC .. 30 degC", Dimension::temperature, 298.15, 5},
    {"95 % +- 2 %", Dimension::fraction, 0.95, 0.02},
    {"0.95 +- 0.02", Dimension::fraction, 0.95, 0.02},
};

struct Refusal {
  const char* text;
  Dimension dimension;
  const char* says;  ///< part of "wrong; mend"
};

const std::vector<Refusal> kRefusals{
    {"", Dimension::length, "is empty"},
    {"   ", Dimension::length, "is empty"},
    {"30", Dimension::length, "has no unit; write \"30 mm\""},
    {"mm", Dimension::length, "does not start with a number"},
    {"--5 mm", Dimension::length, "does not start with a number"},
    {"nan mm", Dimension::length, "not a finite number"},
    {"inf mm", Dimension::length, "not a finite number"},
    {"1e999 mm", Dimension::length, "not a finite number"},
    {"1e308 km", Dimension::length, "not a finite number"},
    {"30 V", Dimension::length, "is not a length"},
    {"30 m2", Dimension::length, "is not a length"},
    {"30 %", Dimension::length, "is not a length"},
    {"30 deg", Dimension::length, "is not a length"},
    {"30 mmm", Dimension::length, "\"mmm\" is not a unit"},
    {"0x10 mm", Dimension::length, "is not a unit"},
    {"1 1/2 in", Dimension::length, "write \"1.5 in\""},
    {"1-1/2 in", Dimension::length, "write \"1.5 in\""},
    {"-1 1/2 in", Dimension::length, "write \"-1.5 in\""},
    {"1/2 in", Dimension::length, "write \"0.5 in\""},
    {"1\u00BD in", Dimension::length, "write \"1.5 in\""},
    {"5'6\"", Dimension::length, "write \"66 in\""},
    {"1,5 mm", Dimension::length, "write \"1.5 mm\""},
    {"1,500 mm", Dimension::length, "write \"1500 mm\" or \"1.500 mm\""},
    {"1 000 mm", Dimension::length, "write \"1000 mm\""},
    {"5 2 m", Dimension::length, "one number and one unit"},
    {"5 m 2", Dimension::length, "one number and one unit"},
    {"5 m @ 3", Dimension::length, "is not a unit"},
    {"5 lg(re m)", Dimension::length, "is not a unit"},
    {"5 lg (re m)", Dimension::length, "is not a unit"},
    {"5 mm +- 1", Dimension::length, "\"1\" has no unit"},
    {"5 mm +- -1 mm", Dimension::length, "is negative"},
    {"5 mm +- 1 mm +- 1 mm", Dimension::length, "is not a unit"},
    {"7 mm .. 5 mm", Dimension::length, "runs backwards"},
    {"18 +- 10 %", Dimension::conductivity, "\"18\" has no unit"},
    {"25 degC +- 5 %", Dimension::temperature, "means nothing"},
    {"95 +- 2 %", Dimension::fraction, "one side only"},
    {"3 deg", Dimension::fraction, "is not a share"},
    {"30 %", Dimension::angle, "is not an angle"},
    {"1 deg/s", Dimension::rate, "is not a rate"},
    {"3 C", Dimension::current, "is not a current"},
    {"20 m", Dimension::duration, "as in \"20 min\""},
    {"3 oz", Dimension::mass, "give grams"},
    {"3 gal", Dimension::length, "is not a length"},
};

std::string refusal_of(const std::string& text, Dimension dimension) {
  try {
    const ParsedQuantity q = parse_quantity(text, dimension);
    return "taken as " + std::to_string(q.value);
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    CHECK(p.key.empty());
    return p.wrong + "; " + p.mend;
  }
}

}  // namespace

TEST_CASE("Quantities are read as the trade writes them", "[units]") {
  for (const Sample& s : kSamples) {
    CAPTURE(s.text);
    const ParsedQuantity q = parse_quantity(s.text, s.dimension);
    CHECK_THAT(q.value, WithinRel(s.value, kRounding));
    CHECK_THAT(q.plus_minus,
               WithinAbs(s.plus_minus, 1e-13 * std::abs(q.value)));
  }
}

TEST_CASE("What is no quantity is refused with a right form", "[units]") {
  for (const Refusal& r : kRefusals) {
    CAPTURE(r.text);
    CHECK_THAT(refusal_of(r.text, r.dimension), Contains(r.says));
  }
}

TEST_CASE("The form that a refusal shows is taken", "[units]") {
  for (const char* text :
       {"30", "1 1/2 in", "1,5 mm", "1 000 mm", "5'6\"", "abc", "30 V", "7"}) {
    const std::string refusal = refusal_of(text, Dimension::length);
    CAPTURE(refusal);
    const auto mend = refusal.rfind("; ");
    const auto open = refusal.find('"', mend);
    const auto close = refusal.find('"', open + 1);
    REQUIRE(close != std::string::npos);
    const std::string form = refusal.substr(open + 1, close - open - 1);
    CHECK_NOTHROW(parse_quantity(form, Dimension::length));
  }
}

TEST_CASE("Every example of a dimension parses", "[units]") {
  for (int k = 0; k <= static_cast<int>(Dimension::mass_density); ++k) {
    const auto dimension = static_cast<Dimension>(k);
    CAPTURE(dimension_example(dimension));
    CHECK(parse_quantity(dimension_example(dimension), dimension).value > 0);
    CHECK(dimension_phrase(dimension) != "a quantity");
  }
}

TEST_CASE("Every unit that the program prints parses back", "[units]") {
  const std::vector<std::pair<const char*, Dimension>> printed{
      {"\u00B5m", Dimension::length},
      {"mm", Dimension::length},
      {"cm\u00B2", Dimension::area},
      {"cm2", Dimension::area},
      {"A", Dimension::current},
      {"V", Dimension::voltage},
      {"A/dm\u00B2", Dimension::current_density},
      {"A/dm2", Dimension::current_density},
      {"ohm", Dimension::resistance},
      {"ohm cm2", Dimension::area_resistance},
      {"S/m", Dimension::conductivity},
      {"g", Dimension::mass},
      {"mg", Dimension::mass},
      {"s", Dimension::duration},
      {"min", Dimension::duration},
      {"h", Dimension::duration},
      {"\u00B0C", Dimension::temperature},
      {"degC", Dimension::temperature},
      {"deg", Dimension::angle},
      {"%", Dimension::fraction},
      {"g/cm3", Dimension::mass_density},
  };
  for (const auto& [unit, dimension] : printed) {
    CAPTURE(unit);
    CHECK_NOTHROW(parse_quantity(std::string("1.5 ") + unit, dimension));
  }
}

TEST_CASE("Nothing is written to the screen", "[units]") {
  std::FILE* const file = std::tmpfile();
  REQUIRE(file);
  std::fflush(stderr);
  const int screen = dup(STDERR_FILENO);
  dup2(fileno(file), STDERR_FILENO);
  for (const Refusal& r : kRefusals) refusal_of(r.text, r.dimension);
  refusal_of("3 m^99999", Dimension::length);
  std::fflush(stderr);
  dup2(screen, STDERR_FILENO);
  close(screen);
  std::fseek(file, 0, SEEK_END);
  CHECK(std::ftell(file) == 0);
  std::fclose(file);
}

TEST_CASE("Threads may read quantities at once", "[units]") {
  std::vector<int> wrong(4, 0);
  std::vector<std::thread> threads;
  for (int& count : wrong)
    threads.emplace_back([&count] {
      for (int round = 0; round < 20; ++round)
        for (const Sample& s : kSamples) {
          const double value = parse_quantity(s.text, s.dimension).value;
          if (!(std::abs(value - s.value) <= 1e-13 * std::abs(s.value)))
            ++count;
        }
    });
  for (std::thread& t : threads) t.join();
  CHECK(wrong == std::vector<int>(4, 0));
}
