// How sure the forecast is, as the built program tells it.
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

/// Numbers of one column of surface.csv.
std::vector<double> column_of(const std::string& table,
                              const std::string& name) {
  std::vector<std::vector<std::string>> rows;
  for (const std::string& line : lines_of(table)) {
    rows.emplace_back();
    std::istringstream in(line);
    for (std::string cell; std::getline(in, cell, ',');)
      rows.back().push_back(cell);
  }
  const auto at = std::find(rows[0].begin(), rows[0].end(), name);
  REQUIRE(at != rows[0].end());
  std::vector<double> numbers;
  for (std::size_t k = 1; k < rows.size(); ++k)
    numbers.push_back(
        std::stod(rows[k][static_cast<std::size_t>(at - rows[0].begin())]));
  return numbers;
}

}  // namespace

TEST_CASE("chance, doubts and bands are in the files and on the terminal") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const Run run = run_thinspot(
      scratch.path(), {"solve", "case.toml", "--set",
                       "solution.conductivity=10 S/m .. 30 S/m", "--set",
                       "cathode.polarization_resistance=2.6 ohm cm2 +- 1 ohm "
                       "cm2"});
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, Contains("Doubt:") && Contains("chance "));
  const auto out = scratch / "case-out";
  const auto s = nlohmann::json::parse(content(out / "summary.json"));
  const double chance = s["target"]["chance"].get<double>();
  CHECK(chance >= 0);
  CHECK(chance <= 1);
  const auto& f = s["forecast"];
  CHECK((f["method"] == "linear" || f["method"] == "draws"));
  CHECK(f["least_um"] == s["target"]["least_um"]);
  CHECK(f["least_um_band"] == s["target"]["least_um_band"]);
  double shares = 0, before = 1;
  bool range = false;
  for (const auto& doubt : f["doubts"]) {
    const double share = doubt["share"].get<double>();
    CHECK(share <= before);
    before = share;
    shares += share;
    const auto& input = doubt["inputs"][0];
    if (input["key"] == "solution.conductivity")
      range = input["evenly"].get<bool>();
    // Who knows more is not less sure.
    const auto& then = doubt["then_um_band"];
    CHECK(then[0] >= f["least_um_band"][0]);
    CHECK(then[1] <= f["least_um_band"][1]);
  }
  CHECK(shares == Approx(1).margin(1e-5));
  CHECK(range);
  CHECK(std::count(s["notes"].begin(), s["notes"].end(), f["why"]) == 1);

  const std::string table = content(out / "surface.csv");
  const auto low = column_of(table, "thickness_low_um"),
             value = column_of(table, "thickness_um"),
             high = column_of(table, "thickness_high_um");
  for (std::size_t k = 0; k < value.size(); ++k) {
    CHECK(low[k] <= value[k]);
    CHECK(value[k] <= high[k]);
  }
  CHECK_THAT(content(out / "surface.vtp"), Contains("thickness_low_um"));
  CHECK_THAT(content(out / "thickness.svg"), Contains("class=\"band\""));
}

TEST_CASE("pairs narrow the band, and bad ones are refused") {
  const Scratch scratch;
  const auto pair = [&](const std::string& of, const std::string& by) {
    put(scratch / "case.toml",
        sound_case() + "[[correlated]]\nof = [\"solution.conductivity\", \"" +
            of + "\"]\nby = " + by + "\n");
    return run_thinspot(
        scratch.path(),
        {"solve", "case.toml", "--quiet", "--set",
         "solution.conductivity=20 S/m +- 3 S/m", "--set",
         "cathode.polarization_resistance=2.6 ohm cm2 +- 1 ohm cm2"});
  };
  const auto band = [&](const std::string& by) {
    const Run run = pair("cathode.polarization_resistance", by);
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    const auto s =
        nlohmann::json::parse(content(scratch / "case-out" / "summary.json"));
    const auto& least = s["target"]["least_um_band"];
    return least[1].get<double>() - least[0].get<double>();
  };
  // Both make the coating more even: errors to opposite sides cancel.
  CHECK(band("-0.9") < band("0.9"));
  const Run bad = pair("cathode.nothing", "0.9");
  CHECK(bad.status == 2);
  CHECK_THAT(bad.err, Contains("correlated.1.of"));
  CHECK(lines_of(bad.err).size() <= 3);
}
