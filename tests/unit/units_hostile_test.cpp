#include "io/units.hpp"
#include "mesh/errors.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>
#include <vector>

using namespace thinspot;
using namespace thinspot::io;

TEST_CASE("Any text gives a finite value or a refusal", "[units][hostile]") {
  std::mt19937 random(20240501);
  const std::vector<std::string> pieces{"1",
                                        "2.5",
                                        "-",
                                        "+",
                                        "+-",
                                        "..",
                                        " ",
                                        "mm",
                                        "m",
                                        "A",
                                        "/",
                                        "dm2",
                                        "^",
                                        "(",
                                        ")",
                                        "%",
                                        "*",
                                        ".",
                                        "\u00B5",
                                        "ohm",
                                        "e99",
                                        "nan",
                                        "re",
                                        "deg",
                                        "C",
                                        "F",
                                        "sq",
                                        "lg",
                                        "\u00B1",
                                        "\"",
                                        "'",
                                        "1/",
                                        "9",
                                        "@",
                                        "km",
                                        "\n",
                                        std::string(1, 0),
                                        "K",
                                        "\xC2",
                                        "since",
                                        "per",
                                        "kg",
                                        ",",
                                        "\u00BD"};
  std::uniform_int_distribution<std::size_t> which(0, pieces.size() - 1);
  std::uniform_int_distribution<int> length(1, 12);
  std::uniform_int_distribution<int> kind(
      0, static_cast<int>(Dimension::mass_density));
  int taken = 0;
  for (int round = 0; round < 20000; ++round) {
    std::string text;
    for (int k = length(random); k > 0; --k) text += pieces[which(random)];
    try {
      const auto q = parse_quantity(text, static_cast<Dimension>(kind(random)));
      ++taken;
      if (!std::isfinite(q.value) || !(q.plus_minus >= 0)) FAIL(text);
    } catch (const InputError&) {
    }
  }
  CHECK(taken > 0);
}

TEST_CASE("A text of a megabyte is refused at once", "[units][hostile]") {
  for (const char* unit : {" mm", ""}) {
    const std::string text = std::string(1'000'000, '9') + unit;
    try {
      parse_quantity(text, Dimension::length);
      FAIL("it was taken");
    } catch (const InputError& error) {
      const Problem& p = error.problems().front();
      CHECK(p.wrong.find("too long") != std::string::npos);
      CHECK(p.wrong.size() + p.mend.size() < 300);
    }
  }
}

TEST_CASE("What would be right is never shown with broken characters",
          "[units][hostile]") {
  for (const char* text : {"\xC2\xBD\xFF", "1,5\xFF", "1 1/2 \x07", "1/2\xC2"})
    try {
      parse_quantity(text, Dimension::length);
      FAIL("it was taken");
    } catch (const InputError& error) {
      CHECK(error.problems().front().mend ==
            "write one number and one unit, as in \"24 mm\"");
    }
  try {
    parse_quantity("1,5 mm", Dimension::length);
    FAIL("it was taken");
  } catch (const InputError& error) {
    CHECK(error.problems().front().mend == "write \"1.5 mm\"");
  }
  try {
    parse_quantity("8 V .. 5\t\x01 V", Dimension::voltage);
    FAIL("it was taken");
  } catch (const InputError& error) {
    CHECK(error.problems().front().wrong.find('\t') == std::string::npos);
  }
  try {
    parse_quantity("8 V .. 5\t\tV", Dimension::voltage);
    FAIL("it was taken");
  } catch (const InputError& error) {
    CHECK(error.problems().front().wrong ==
          "the range \"8 V\" .. \"5??V\" runs backwards");
  }
}
