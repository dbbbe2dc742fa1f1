// How sure the forecast is, in words, in summary.json and in the table.
#include "io/forecast_words.hpp"
#include "io/quantity_words.hpp"
#include "io/summary_json.hpp"
#include "io/tables_csv.hpp"
#include "io/verdict.hpp"
#include "io/words.hpp"
#include "tests/unit/sample_result.hpp"

#include <nlohmann/json.hpp>

#include <catch2/catch.hpp>

#include <string>

using namespace thinspot;
using Catch::Matchers::Contains;
using solver::Doubt;
using solver::Forecast;

namespace {

/// The sample with a chance and three doubts, one of a pair.
solver::Result doubtful_result() {
  solver::Result r = tests::sample_result();
  r.target->chance = 0.83;
  Forecast& f = r.forecast;
  f.method = Forecast::Method::draws;
  f.draws = 400;
  f.why = "Bands come from draws.";
  f.least = 9.5e-6;
  f.band = {8.1e-6, 11.0e-6};
  f.doubts = {
      Doubt{{{"solution.conductivity", {20, 3}}}, 0.8, 0.2, {9.2e-6, 10.1e-6}},
      Doubt{{{"cathode.polarization_resistance", {2.6e-4, 1e-4}},
             {"anode.sheet.polarization_offset", {0.1, 0.03, true}}},
            0.17,
            0.3,
            {8.2e-6, 10.6e-6}},
      Doubt{{{"step.1.duration", {2400, 12}}}, 0.03, 1, {8.1e-6, 11.0e-6}},
  };
  return r;
}

nlohmann::json summary_of(const solver::Result& r) {
  return nlohmann::json::parse(io::summary_json(r, io::words_for(r)));
}

}  // namespace

TEST_CASE("a chance is never none and never all", "[words]") {
  CHECK(io::chance_text(0) == "under 1 %");
  CHECK(io::chance_text(0.0099) == "under 1 %");
  CHECK(io::chance_text(0.01) == "1 %");
  CHECK(io::chance_text(0.834) == "83 %");
  CHECK(io::chance_text(0.99) == "99 %");
  CHECK(io::chance_text(0.9901) == "over 99 %");
  CHECK(io::chance_text(1) == "over 99 %");
}

TEST_CASE("quantities are called as people call them", "[words]") {
  const auto says = [](const char* key, const char* words) {
    CHECK(io::quantity_in_words(key) == words);
  };
  says("solution.conductivity", "conductivity of the solution");
  says("solution.conductivity_per_kelvin", "growth of conductivity per kelvin");
  says("cathode.tafel_slope", "Tafel slope of the cathode");
  says("anode.left sheet.bag_resistance", "bag resistance of anode left sheet");
  says("anode.a.b.polarization_offset", "polarization offset of anode a.b");
  says("rack.contact_resistance.3", "contact resistance of place 3");
  says("supply.current", "current of the supply");
  says("rectifier.main.voltage", "voltage of rectifier main");
  says("step.2.duration", "duration of step 2");
  says("step.2.supply.current", "current of step 2");
  says("step.2.rectifiers.main.current", "current of rectifier main in step 2");
  says("clip.top.contact_resistance", "contact resistance of clip top");
}

TEST_CASE("one line says what makes the doubt", "[words]") {
  const std::string line = io::sure_words(doubtful_result());
  CHECK_THAT(io::verdict(doubtful_result()), Contains("; chance 83 %."));
  CHECK_THAT(line,
             Contains("conductivity 80 %, cathode polarization resistance "
                      "with polarization offset of anode sheet 17 %;"));
  // A few hundredths are for the page.
  CHECK_THAT(line, !Contains("duration"));
  // Two digits of its width.
  CHECK_THAT(line, Contains("the first measured: 9.20 to 10.10 \u00B5m"));
  solver::Result sure = doubtful_result();
  for (Doubt& doubt : sure.forecast.doubts) doubt.left = 1;
  CHECK(io::sure_words(sure).empty());
}

TEST_CASE("what to measure next, and what it would leave", "[words]") {
  const auto lines = io::measure_words(doubtful_result());
  REQUIRE(lines.size() == 3);
  CHECK_THAT(lines[0], Contains("conductivity of the solution (\u00B1 15 %) "
                                "makes 80 % of the doubt: measured to \u00B1 3 "
                                "%"));
  CHECK_THAT(lines[0], Contains("in place of 8.1 to 11.0 \u00B5m"));
  CHECK_THAT(lines[1], Contains("whose errors go together") &&
                           Contains("\u00B1 30 mV at most") &&
                           Contains("make 17 % of the doubt"));
  CHECK_THAT(lines[2], Contains("a bench can hardly tell more"));
}

TEST_CASE("where nothing is uncertain nothing is said of it", "[words]") {
  const solver::Result r = tests::sample_result();
  CHECK(io::sure_words(r).empty());
  CHECK(io::measure_words(r).empty());
  CHECK(io::along_words(r).empty());
  const nlohmann::json s = summary_of(r);
  CHECK(s["forecast"]["method"] == "none");
  CHECK_FALSE(s["target"].contains("chance"));
}

TEST_CASE("the summary has chance, method and doubts", "[outputs]") {
  const nlohmann::json s = summary_of(doubtful_result());
  CHECK(s["target"]["chance"] == 0.83);
  const nlohmann::json& f = s["forecast"];
  CHECK(f["method"] == "draws");
  CHECK(f["draws"] == 400);
  CHECK(f["why"] == "Bands come from draws.");
  CHECK(f["least_um_band"] == nlohmann::json({8.1, 11.0}));
  REQUIRE(f["doubts"].size() == 3);
  const nlohmann::json& pair = f["doubts"][1];
  CHECK(pair["share"] == 0.17);
  CHECK(pair["left_by_measuring"] == 0.3);
  CHECK(pair["then_um_band"] == nlohmann::json({8.2, 10.6}));
  REQUIRE(pair["inputs"].size() == 2);
  CHECK(pair["inputs"][0]["key"] == "cathode.polarization_resistance");
  CHECK(pair["inputs"][0]["plus_minus_share"].get<double>() ==
        Approx(1 / 2.6).epsilon(1e-5));
  CHECK(pair["inputs"][1]["plus_minus_V"] == 0.03);
  CHECK(pair["inputs"][1]["evenly"] == true);
}

TEST_CASE("the table has both ends of the band at every point", "[outputs]") {
  solver::Result r = tests::sample_result();
  for (solver::SurfacePoint& p : r.parts[0].surface)
    p.thickness_band = {0.9 * p.thickness, 1.2 * p.thickness};
  const std::string table = io::surface_csv(r);
  CHECK_THAT(table, Contains("thickness_um,thickness_low_um,"
                             "thickness_high_um\n"));
  CHECK_THAT(table, Contains(",4,2,12,10.8,14.4\n"));
  CHECK_THAT(io::along_words(r), Contains("\u00B1 15 %"));
}
