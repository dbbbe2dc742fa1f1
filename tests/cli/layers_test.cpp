// Several case files on one command line: layers on one part.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// Copper and nickel on the token, both whole cases.
void put_layers(const Scratch& scratch) {
  put(scratch / "copper.toml", sound_case());
  std::string nickel = edited("metal = \"copper\"\nconductivity = \"20 S/m\"",
                              "metal = \"nickel\"\nconductivity = \"9 S/m\"\n"
                              "efficiency = \"95 % +- 2 %\"");
  const std::string anode = "gap = \"35 mm\"\nmetal = \"copper\"";
  nickel.replace(nickel.find(anode), anode.size(),
                 "gap = \"35 mm\"\nmetal = \"nickel\"");
  put(scratch / "nickel.toml",
      nickel + "\n[[probe]]\nname = \"left\"\nat = [\"43.8 mm\", \"50 mm\"]\n");
}

Run solve_layers(const Scratch& scratch,
                 std::vector<std::string> more = {"--quiet"}) {
  put_layers(scratch);
  more.insert(more.begin(), {"solve", "copper.toml", "nickel.toml"});
  return run_thinspot(scratch.path(), more);
}

json summary_in(const fs::path& folder) {
  return json::parse(content(folder / "summary.json"));
}

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line);
  for (std::string cell; std::getline(in, cell, ',');) cells.push_back(cell);
  return cells;
}

/// The one line of an error, of status 2.
std::string refused(const Run& run) {
  CAPTURE(run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  REQUIRE(lines_of(run.err).size() == 1);
  return run.err;
}

}  // namespace

TEST_CASE("two cases are solved as layers into one folder of both names") {
  const Scratch scratch;
  const Run run = solve_layers(scratch, {});
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, Contains("Target met in every layer.") &&
                          Contains("Layer 1:  copper: ") &&
                          Contains("Layer 2:  nickel: ") &&
                          Contains(" of copper and nickel in 80") &&
                          Contains("copper-nickel-out/report.html"));
  CHECK_FALSE(fs::exists(scratch / "copper-out"));

  const json s = summary_in(scratch / "copper-nickel-out");
  REQUIRE(s["layers"].size() == 2);
  CHECK(s["layers"][0]["file"] == "copper.toml");
  CHECK(s["layers"][1]["metal"] == "nickel");
  CHECK(s["layers"][0]["onto"] == "brass");
  CHECK(s["layers"][1]["onto"] == "copper");
  CHECK(s["layers"][0]["target"]["met"] == true);
  CHECK_FALSE(s.contains("target"));
  REQUIRE(s["steps"].size() == 2);
  CHECK(s["steps"][0]["layer"] == 1);
  CHECK(s["steps"][1]["layer"] == 2);
  // The whole is the sum, to the six digits that are written: 5e-6 of each.
  const auto sum = [&](const std::string& key) {
    double all = 0;
    for (const json& layer : s["layers"])
      all += layer["parts"][0][key].is_number()
                 ? layer["parts"][0][key].get<double>()
                 : layer["parts"][0][key]["mean"].get<double>();
    return all;
  };
  CHECK(s["part"]["mass_g"].get<double>() ==
        Approx(sum("mass_g")).epsilon(1e-5));
  CHECK(s["part"]["thickness_um"]["mean"].get<double>() ==
        Approx(sum("thickness_um")).epsilon(1e-5));
  // Each probe in the whole and in both layers.
  REQUIRE(s["probes"].size() == 1);
  CHECK(s["probes"][0]["thickness_um"].get<double>() ==
        Approx(s["layers"][0]["probes"][0]["thickness_um"].get<double>() +
               s["layers"][1]["probes"][0]["thickness_um"].get<double>())
            .epsilon(1e-5));
}

TEST_CASE("tables and data files hold each layer beside the whole") {
  const Scratch scratch;
  REQUIRE(solve_layers(scratch).status == 0);
  const fs::path out = scratch / "copper-nickel-out";
  const auto lines = lines_of(content(out / "surface.csv"));
  const auto header = cells_of(lines.front());
  REQUIRE(header.size() == 18);
  CHECK(header[12] == "thickness_um");
  CHECK(header[13] == "layer_1_copper_um");
  CHECK(header[14] == "layer_2_nickel_um");
  CHECK(header[15] == "thickness_by_shape_um");
  CHECK(header[16] == "thickness_low_um");
  CHECK(header[17] == "thickness_high_um");
  CHECK(lines.size() > 100);
  for (std::size_t k = 1; k < lines.size(); ++k) {
    const auto cells = cells_of(lines[k]);
    REQUIRE(cells.size() == 18);
    CHECK(std::stod(cells[12]) ==
          Approx(std::stod(cells[13]) + std::stod(cells[14])).epsilon(1e-5));
  }
  for (const std::string file : {"surface.vtp", "step_1.vtp", "step_2.vtp"}) {
    CAPTURE(file);
    const std::string data = content(out / file);
    CHECK_THAT(data, Contains("Name=\"thickness_um\"") &&
                         Contains("Name=\"layer_1_copper_um\"") &&
                         Contains("Name=\"layer_2_nickel_um\""));
  }
  const std::string steps = content(out / "steps.pvd");
  CHECK_THAT(steps, Contains("timestep=\"40\"") && Contains("timestep=\"80\""));
  for (const std::string file : {"thickness.svg", "section.svg"})
    CHECK_THAT(content(out / file),
               Contains("copper: ") && Contains("nickel: "));
  CHECK_THAT(content(out / "steps.svg"),
             Contains("copper, as drawn") && Contains("nickel, as drawn"));
}

TEST_CASE("layers give the same bytes again, times apart") {
  const Scratch scratch;
  REQUIRE(solve_layers(scratch, {"--quiet", "--out", "a"}).status == 0);
  REQUIRE(solve_layers(scratch, {"--quiet", "--out", "b"}).status == 0);
  for (const std::string file :
       {"report.html", "surface.csv", "surface.vtp", "step_1.vtp",
        "thickness.svg", "section.svg", "steps.svg"}) {
    CAPTURE(file);
    CHECK(content(scratch / "a" / file) == content(scratch / "b" / file));
  }
}

TEST_CASE("one case has one layer, which is itself") {
  const Scratch scratch;
  put(scratch / "copper.toml", sound_case());
  REQUIRE(run_thinspot(scratch.path(), {"solve", "copper.toml", "--quiet"})
              .status == 0);
  const json s = summary_in(scratch / "copper-out");
  REQUIRE(s["layers"].size() == 1);
  CHECK(s["layers"][0]["name"] == "copper");
  CHECK(s["layers"][0]["parts"][0]["thickness_um"] ==
        s["part"]["thickness_um"]);
  CHECK(s["layers"][0]["target"] == s["target"]);
  CHECK_FALSE(s["words"].contains("layers"));
  CHECK_FALSE(s["steps"][0].contains("layer"));
}

TEST_CASE("layers on different parts are refused in one line") {
  const Scratch scratch;
  put_layers(scratch);
  put(scratch / "other.toml",
      edited("diameter = \"30 mm\"", "diameter = \"28 mm\""));
  for (const std::string verb : {"solve", "check"}) {
    const std::string line = refused(
        run_thinspot(scratch.path(), {verb, "copper.toml", "other.toml"}));
    CHECK_THAT(line,
               StartsWith("other.toml: part.diameter: is 28 mm, but 30 mm "
                          "in copper.toml; "));
  }
  CHECK_FALSE(fs::exists(scratch / "copper-other-out"));
}

TEST_CASE("an override says which of several files it is for") {
  const Scratch scratch;
  REQUIRE(solve_layers(scratch, {"--quiet", "--set", "2:step.1.duration=10 min",
                                 "--set", "1:supply.current=0.2 A"})
              .status == 0);
  const json s = summary_in(scratch / "copper-nickel-out");
  CHECK(s["steps"][0]["duration_min"] == 40.0);
  CHECK(s["steps"][1]["duration_min"] == 10.0);
  CHECK(s["steps"][0]["cell"]["current_A"] == 0.2);
  CHECK(s["steps"][1]["cell"]["current_A"] == 0.33);

  CHECK_THAT(refused(solve_layers(scratch, {"--set", "supply.current=0.2 A"})),
             Contains("does not say which of the 2 case files it is for") &&
                 Contains("--set 2:supply.current=0.2 A"));
  CHECK_THAT(
      refused(solve_layers(scratch, {"--set", "3:supply.current=0.2 A"})),
      Contains("is for case file 3, and there are 2"));
  CHECK_THAT(refused(solve_layers(scratch, {"--set", "2:supply.amps=1"})),
             StartsWith("--set: 2:supply.amps: is not a key"));
}

TEST_CASE("what is wrong with a layer names its file") {
  const Scratch scratch;
  put_layers(scratch);
  put(scratch / "first.toml", edited("level = \"100 mm\"", "level = \"1 mm\""));
  put(scratch / "second.toml", edited("\"0.33 A\"", "\"0.33 V\""));
  const Run both =
      run_thinspot(scratch.path(), {"solve", "first.toml", "second.toml"});
  CHECK(both.status == 2);
  CHECK_THAT(both.err, Contains("second.toml:"));
  const Run one =
      run_thinspot(scratch.path(), {"solve", "copper.toml", "first.toml"});
  CHECK(one.status == 2);
  CHECK_FALSE(one.err.empty());
  for (const std::string& line : lines_of(one.err))
    CHECK_THAT(line, StartsWith("first.toml:"));
  CHECK_THAT(refused(run_thinspot(scratch.path(),
                                  {"solve", "copper.toml", "none.toml"})),
             Contains("none.toml"));
}

TEST_CASE("a strict run holds every layer to its target") {
  const Scratch scratch;
  CHECK(solve_layers(scratch, {"--quiet", "--strict"}).status == 0);
  const Run missed =
      solve_layers(scratch, {"--strict", "--set", "1:target.thickness=30 um"});
  CHECK(missed.status == 1);
  CHECK_THAT(missed.out, Contains("Target not met in the copper layer."));
  CHECK(solve_layers(scratch, {"--quiet", "--set", "1:target.thickness=30 um"})
            .status == 0);
}

TEST_CASE("check looks over each of several files in turn") {
  const Scratch scratch;
  put_layers(scratch);
  const Run run =
      run_thinspot(scratch.path(), {"check", "copper.toml", "nickel.toml"});
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  const std::size_t first = run.out.find("Open copper-check.svg");
  REQUIRE(first != std::string::npos);
  CHECK(run.out.find("Open nickel-check.svg", first) != std::string::npos);
  CHECK(fs::exists(scratch / "copper-check.svg"));
  CHECK(fs::exists(scratch / "nickel-check.svg"));
  CHECK_THAT(refused(run_thinspot(
                 scratch.path(),
                 {"check", "copper.toml", "nickel.toml", "--out", "one.svg"})),
             StartsWith("--out: "));
}

TEST_CASE("the shipped copper and nickel solve as layers") {
  const Scratch scratch;
  const Run run = run_thinspot(
      scratch.path(), {"solve", shipped_case("token_copper").string(),
                       shipped_case("token_nickel").string(), "--strict",
                       "--out", (scratch / "out").string()});
  CAPTURE(run.out, run.err);
  REQUIRE(run.status == 0);
  const json s = summary_in(scratch / "out");
  CHECK(s["steps"].size() == 3);
  CHECK(s["mesh"]["within_tolerance"] == true);
  // Turned half way the nickel is as even as between two bars.
  const auto& nickel = s["layers"][1]["parts"][0]["thickness_um"];
  CHECK(nickel["min"].get<double>() > 0.5 * nickel["mean"].get<double>());
}
