// docs/theory.md: the table of how far a disc's section misleads is the one
// that the bands are made of, which tests/verification computes anew.
#include "solver/deposit.hpp"
#include "solver/section_error.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <fstream>
#include <regex>
#include <string>

using namespace thinspot;

namespace {

std::string page() {
  std::ifstream in(THINSPOT_SOURCE_DIR "/docs/theory.md");
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string too_thick(double ratio) {
  return fmt::format("{:.0f}", 100 * (1 / ratio - 1));
}

}  // namespace

TEST_CASE("the theory's table of discs is the program's", "[docs]") {
  const std::string text = page();
  const std::regex row("\n\\| ([0-9.]+) \\| ([0-9]+) % \\| ([0-9]+) % \\|");
  int rows = 0;
  for (std::sregex_iterator it(text.begin(), text.end(), row), end; it != end;
       ++it, ++rows) {
    CAPTURE(it->str());
    const auto ratios = solver::disc_ratios(std::stod((*it)[1]));
    CHECK((*it)[2] == too_thick(ratios.least));
    CHECK((*it)[3] == too_thick(ratios.largest));
  }
  CHECK(rows == 8);
}

TEST_CASE("the theory's constants are the program's", "[docs]") {
  CHECK(page().find(fmt::format("{:.5f}", solver::kFaraday)) !=
        std::string::npos);
}
