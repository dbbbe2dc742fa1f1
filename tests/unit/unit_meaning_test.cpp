// Units are found out once and remembered: nobody may see a difference.
#include "io/unit_meaning.hpp"
#include "io/units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <string>
#include <thread>
#include <vector>

using namespace thinspot;
using namespace thinspot::io;

namespace {

/// Sound units, such as need another spelling or small letters, such as may
/// mean two things, and such as mean nothing.
const std::vector<std::string> kUnits{
    "mm",   "A/dm2", "ASD",      "Inches", "degC",         "C",
    "F",    "deg C", "oz",       "rpm",    "\u00B5m",      "ohm cm2",
    "%",    "g/l",   "furlongs", "mmm",    "lg (re 1 mW)", "K",
    "turn", "rev",   "3 mm",     "",       "mm\n",         std::string(41, 'm'),
    "S/m",  "MM",    "/s",       "\xC2"};

std::vector<Dimension> dimensions() {
  std::vector<Dimension> all;
  for (int k = 0; k <= static_cast<int>(Dimension::mass_density); ++k)
    all.push_back(static_cast<Dimension>(k));
  return all;
}

bool same(const UnitMeaning& a, const UnitMeaning& b) {
  return a.conversion.status == b.conversion.status &&
         a.conversion.scale == b.conversion.scale &&
         a.conversion.shift == b.conversion.shift && a.hint == b.hint;
}

std::string refusal_of(const std::string& text, Dimension dimension) {
  try {
    parse_quantity(text, dimension);
    return "";
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    return p.key + "|" + p.wrong + "|" + p.mend;
  }
}

}  // namespace

TEST_CASE("A unit means the same however often it is asked for", "[units]") {
  int fine = 0, refused = 0, hints = 0;
  for (int round = 0; round < 3; ++round)
    for (const std::string& unit : kUnits)
      for (const Dimension dimension : dimensions()) {
        CAPTURE(unit, static_cast<int>(dimension), round);
        const UnitMeaning found = found_meaning(unit, dimension);
        CHECK(same(unit_meaning(unit, dimension), found));
        const bool known =
            found.conversion.status == UnitConversion::Status::fine;
        ++(!found.hint.empty() ? hints : known ? fine : refused);
      }
  // Each of them is among what was compared.
  CHECK(fine > 50);
  CHECK(refused > 50);
  CHECK(hints == 3);
}

TEST_CASE("A refused unit is refused again in the same words", "[units]") {
  for (const std::string& unit : kUnits)
    for (const Dimension dimension : dimensions()) {
      CAPTURE(unit);
      const std::string first = refusal_of("7.531 " + unit, dimension);
      CHECK(refusal_of("7.531 " + unit, dimension) == first);
      // The number is that of the text, not of the first one.
      std::string other = refusal_of("9.642 " + unit, dimension);
      for (auto at = other.find("9.642"); at != std::string::npos;
           at = other.find("9.642"))
        other.replace(at, 5, "7.531");
      CHECK(other == first);
    }
}

TEST_CASE("No more units are remembered than there is room for",
          "[units][hostile]") {
  const std::string longer(kLongestRemembered + 1, 'x');
  const std::size_t before = remembered_units();
  unit_meaning(longer, Dimension::length);
  CHECK(remembered_units() == before);
  for (std::size_t k = 0; k < 2 * kMostRemembered; ++k) {
    std::string unit = "x";
    for (std::size_t rest = k; rest > 0; rest /= 26)
      unit += static_cast<char>('a' + rest % 26);
    const UnitMeaning found = unit_meaning(unit, Dimension::mass);
    if (found.conversion.status != UnitConversion::Status::unknown_unit)
      CHECK(same(found, found_meaning(unit, Dimension::mass)));
  }
  CHECK(remembered_units() == kMostRemembered);
  // What came too late reads as well.
  CHECK(parse_quantity("3 nautical_mile", Dimension::length).value == 5556);
  CHECK(remembered_units() == kMostRemembered);
}

TEST_CASE("Threads may remember units at once", "[units]") {
  std::vector<int> wrong(4, 0);
  std::vector<std::thread> threads;
  for (int& count : wrong)
    threads.emplace_back([&count] {
      for (int power = 1; power <= 9; ++power)
        for (const char* unit : {"mm", "cm", "dm", "km"}) {
          const std::string whole = fmt::format("{}{}", unit, power);
          if (!same(unit_meaning(whole, Dimension::area),
                    found_meaning(whole, Dimension::area)))
            ++count;
        }
    });
  for (std::thread& t : threads) t.join();
  CHECK(wrong == std::vector<int>(4, 0));
}
