// thinspot fit as its user sees it.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// The sound case with a slope that does not follow the current.
std::string straight_case() {
  return edited("polarization_at = \"2 A/dm2\"\n", "");
}

constexpr const char* kReadings =
    "what,reading,plus_minus,at,method,with\n"
    "voltage,0.30 V,5 mV,0.1 A,,\n"
    "voltage,0.51 V,5 mV,0.2 A,,\n"
    "voltage,0.92 V,5 mV,0.4 A,,\n"
    "voltage,0.66 V,5 mV,0.4 A,,anode.sheet.gap=20 mm\n"
    "voltage,0.245 V,5 mV,0.1 A,,anode.sheet.gap=20 mm\n"
    "mass,0.26 g,,,,\n";

Run fit(const Scratch& scratch, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"fit", "case.toml", "readings.csv"});
  return run_thinspot(scratch.path(), options);
}

Json json_in(const fs::path& folder) {
  return Json::parse(content(folder / "fit.json"));
}

/// Status 2, one line for each problem, nothing written.
void check_refused(const Scratch& scratch, const std::string& table,
                   const std::vector<std::string>& says,
                   const std::vector<std::string>& options = {}) {
  put(scratch / "readings.csv", table);
  const Run run = fit(scratch, options);
  CAPTURE(table, run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  for (const std::string& word : says) CHECK_THAT(run.err, Contains(word));
  CHECK_FALSE(fs::exists(scratch / "case-fit"));
}

}  // namespace

TEST_CASE("fit: a calibrated case from a multimeter and a scale") {
  const Scratch scratch;
  put(scratch / "case.toml", straight_case());
  put(scratch / "readings.csv", kReadings);
  const Run run = fit(scratch);
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  const auto lines = lines_of(run.out);
  CHECK(lines.size() <= 40);
  CHECK_THAT(lines.at(1), Contains("By 6 readings"));
  CHECK(lines.back() == "Open case-fit/fit.html");
  const fs::path folder = scratch / "case-fit";
  CHECK(names_in(folder) ==
        std::set<std::string>{".thinspot", "fit.html", "fit.json",
                              "fitted.toml", "fragment.toml", "residuals.svg"});
  const Json j = json_in(folder);
  for (const Json& f : j["files"])
    CHECK(fs::file_size(folder / f["name"].get<std::string>()) == f["bytes"]);
  CHECK(j["untold"].empty());
  for (const Json& v : j["values"]) {
    CHECK(v["given_up"] == false);
    CHECK(v["interval"][0] < v["value"]);
    CHECK(v["value"] < v["interval"][1]);
  }
  // The file that was written solves, and gives what the fit says.
  const Run solved =
      run_thinspot(scratch.path(), {"solve", "case-fit/fitted.toml"});
  CAPTURE(solved.err);
  REQUIRE(solved.status == 0);
  const Json s = Json::parse(content(folder / "fitted-out" / "summary.json"));
  CHECK(s["cell"]["voltage_V"].get<double>() ==
        Approx(j["forecast"]["now"]["voltage_V"].get<double>()).epsilon(5e-3));
  CHECK(s["target"]["least_um"].get<double>() ==
        Approx(j["forecast"]["now"]["least_um"].get<double>()).epsilon(5e-3));
  // Fitted values go together: their doubt does not count twice.
  const double was = j["forecast"]["now"]["least_um"];
  CHECK(was > 0);
  CHECK(j["correlated"].size() >= 1);
}

TEST_CASE("fit: the shipped readings of the shipped case") {
  const Scratch scratch;
  fs::copy_file(shipped_case("token_two_sheets"), scratch / "case.toml");
  fs::copy_file(shipped_case("token_two_sheets").parent_path() /
                    "token_two_sheets_readings.csv",
                scratch / "readings.csv");
  const Run run = fit(scratch, {"--out", "mine"});
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  const Json j = json_in(scratch / "mine");
  CHECK(j["scatter"]["chance"] > 0.01);
  // Its slope follows the current: voltages cannot tell it from the offset.
  REQUIRE(!j["untold"].empty());
  CHECK_THAT(j["words"]["next"][0].get<std::string>(),
             Contains("polarization_at"));
  CHECK_THAT(content(scratch / "mine" / "fitted.toml"),
             Contains("The token of token_one_sheet.toml"));
}

TEST_CASE("fit: the readings alone") {
  const Scratch scratch;
  put(scratch / "case.toml", [] {
    std::string text = straight_case();
    const std::string from = "\"20 S/m\"";
    return text.replace(text.find(from), from.size(), "\"20 S/m +- 0.1 S/m\"");
  }());
  put(scratch / "readings.csv", kReadings);
  REQUIRE(fit(scratch).status == 0);
  const double held = json_in(scratch / "case-fit")["values"][0]["value"];
  REQUIRE(fit(scratch, {"--readings-alone", "--quiet"}).status == 0);
  const double free = json_in(scratch / "case-fit")["values"][0]["value"];
  CHECK(held == Approx(20).epsilon(0.02));
  CHECK(free < 0.9 * held);
}

TEST_CASE("fit: another key to fit") {
  const Scratch scratch;
  put(scratch / "case.toml", straight_case());
  put(scratch / "readings.csv", kReadings);
  const Run run = fit(scratch, {"--fit", "solution.efficiency"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(content(scratch / "case-fit" / "fragment.toml"),
             Contains("efficiency = \""));
  const Run wrong = fit(scratch, {"--fit", "solution.colour", "--out", "no"});
  CHECK(wrong.status == 2);
  CHECK_THAT(wrong.err,
             Contains("solution.colour") && Contains("solution.efficiency"));
  CHECK_FALSE(fs::exists(scratch / "no"));
}

TEST_CASE("fit: refused in a line, nothing written") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const std::string names = "what,reading,plus_minus,at,method,with\n";
  check_refused(scratch, "", {"readings.csv", "holds no readings"});
  check_refused(scratch, std::string(4, '\0'), {"readings.csv"});
  check_refused(scratch, "schema = 1\n[tank]\n", {"readings.csv"});
  check_refused(scratch, names + "voltage,1.3,,,,\n", {"readings.csv:2"});
  check_refused(scratch, names + "voltage,1 V,,step 3,,\n",
                {"step 3", "the case has 1"});
  check_refused(scratch, names + "mass,1 g,,part 2,,\n",
                {"part 2", "the case has 1"});
  check_refused(scratch, names + "thickness,9 um,,rim,X-ray,\n",
                {"readings.csv:2", "no probe"});
  check_refused(scratch, names + "voltage,1 V,,,,anode.shet.gap=2 mm\n",
                {"readings.csv:2", "anode.sheet.gap"});
  check_refused(scratch, names + "voltage,1 V,,,,anode.sheet.gap=2 km\n",
                {"readings.csv:2", "out of range"});
  // A part outside the tank.
  check_refused(scratch,
                names + "voltage,1 V,,,,part.at=[\"450 mm\"; \"50 mm\"]\n",
                {"readings.csv:2"});
  CHECK(run_thinspot(scratch.path(), {"fit"}).status == 2);
  CHECK(run_thinspot(scratch.path(), {"fit", "case.toml"}).status == 2);
  CHECK(run_thinspot(scratch.path(), {"fit", "case.toml", "none.csv"}).status ==
        2);
  CHECK(run_thinspot(scratch.path(), {"fit", "case.toml", "case.toml", "a.csv"})
            .status == 2);
}

TEST_CASE("fit: readings that no values come near") {
  const Scratch scratch;
  put(scratch / "case.toml", straight_case());
  // Volts for millivolts: it ends, and says that it does not go together.
  put(scratch / "readings.csv",
      "what,reading,at\nvoltage,300 V,0.1 A\nvoltage,0.5 V,0.2 A\n"
      "voltage,0.9 V,0.4 A\nvoltage,0.2 V,0.05 A\nmass,0.26 g,\n");
  const Run run = fit(scratch);
  CAPTURE(run.out, run.err);
  CHECK((run.status == 0 || run.status == 4));
  if (run.status == 0)
    CHECK_THAT(run.out, Contains("scatter"));
  else
    CHECK_THAT(run.err, Contains("readings"));
}

TEST_CASE("fit: a fitted case is not written over by its own fit") {
  const Scratch scratch;
  put(scratch / "case.toml", straight_case());
  put(scratch / "readings.csv", kReadings);
  REQUIRE(fit(scratch).status == 0);
  const Run run = run_thinspot(
      scratch.path(),
      {"fit", "case-fit/fitted.toml", "readings.csv", "--out", "case-fit"});
  CHECK(run.status == 2);
  CHECK_THAT(run.err, Contains("own fit"));
  CHECK(fs::exists(scratch / "case-fit" / "fit.json"));
  const Run again = run_thinspot(
      scratch.path(), {"fit", "case-fit/fitted.toml", "readings.csv"});
  CAPTURE(again.err);
  CHECK(again.status == 0);
}
