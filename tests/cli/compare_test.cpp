// `thinspot compare`: results of the built program against each other and
// against readings, and what it says of folders that it cannot compare.

#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <map>
#include <numbers>
#include <sstream>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

void solve(const Scratch& scratch, const std::string& text,
           const std::string& folder) {
  put(scratch / "case.toml", text);
  const Run run = run_thinspot(
      scratch.path(), {"solve", "case.toml", "--quiet", "--out", folder});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
}

void solve_shipped(const Scratch& scratch, const std::string& name) {
  const Run run = run_thinspot(
      scratch.path(),
      {"solve", shipped_case(name).string(), "--quiet", "--out", name});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
}

Run compare(const Scratch& scratch, std::vector<std::string> arguments) {
  arguments.insert(arguments.begin(), "compare");
  return run_thinspot(scratch.path(), arguments);
}

/// One line on standard error, nothing on the other, status 2.
std::string refused(const Scratch& scratch,
                    const std::vector<std::string>& arguments) {
  const Run run = compare(scratch, arguments);
  CAPTURE(arguments, run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(lines_of(run.err).size() == 1);
  return run.err;
}

Json numbers_in(const fs::path& folder) {
  return Json::parse(content(folder / "compare.json"));
}

Json figure(const Json& numbers, const std::string& name) {
  for (const Json& f : numbers["figures"])
    if (f["figure"] == name) return f;
  FAIL("no figure " << name);
  return {};
}

/// Rows of a table without quotes in it, by the names of its columns.
std::vector<std::map<std::string, std::string>> table_in(const fs::path& file) {
  std::vector<std::map<std::string, std::string>> rows;
  std::istringstream in(content(file));
  std::vector<std::string> head;
  for (std::string line; std::getline(in, line);) {
    std::vector<std::string> cells{""};
    for (const char c : line) {
      if (c == ',')
        cells.emplace_back();
      else
        cells.back() += c;
    }
    if (head.empty()) {
      head = cells;
      continue;
    }
    REQUIRE(cells.size() == head.size());
    auto& row = rows.emplace_back();
    for (std::size_t k = 0; k < head.size(); ++k) row[head[k]] = cells[k];
  }
  return rows;
}

/// Of every file in a folder, hidden ones too.
std::map<std::string, std::string> all_in(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::directory_iterator(folder))
    files[entry.path().filename().string()] = content(entry.path());
  return files;
}

}  // namespace

TEST_CASE("the same case twice: no difference anywhere", "[compare]") {
  const Scratch scratch;
  solve(scratch, sound_case(), "a-out");
  solve(scratch, sound_case(), "b-out");
  const Run run = compare(scratch, {"a-out", "b-out"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  CHECK(lines_of(run.out).size() <= 40);
  CHECK_THAT(run.out, StartsWith("B is as A, in every figure and at every"));
  const fs::path folder = scratch / "a-out-against-b-out";
  for (const auto& row : table_in(folder / "compare.csv"))
    CHECK(row.at("difference_um") == "0");
  const Json numbers = numbers_in(folder);
  for (const Json& f : numbers["figures"]) CHECK(f["verdict"] == "the same");
  CHECK(numbers["parts"][0]["most_gained"].is_null());
  // The last file lists the others with their sizes.
  CHECK(numbers["files"].size() == 3);
  for (const Json& f : numbers["files"])
    CHECK(fs::file_size(folder / f["name"].get<std::string>()) == f["bytes"]);
}

TEST_CASE("twice the time is twice the coating", "[compare]") {
  // At constant current thickness is linear in time, so what the second has
  // more is what the first has, at every point.
  const Scratch scratch;
  solve(scratch, sound_case(), "once");
  solve(scratch, edited("40 min", "80 min"), "twice");
  REQUIRE(compare(scratch, {"once", "twice", "--quiet"}).status == 0);
  const auto rows = table_in(scratch / "once-against-twice/compare.csv");
  CHECK(rows.size() > 50);
  for (const auto& row : rows) {
    const double once = std::stod(row.at("thickness_a_um"));
    // Six digits of 1 to 1000 um, each of three numbers rounded once: half a
    // unit of the last place of the larger one twice, and of the other.
    const double last = std::pow(10, std::floor(std::log10(2 * once)) - 5);
    CHECK(std::abs(std::stod(row.at("difference_um")) - once) <= 2 * last);
    CHECK(row.at("current_density_a_A_dm2") ==
          row.at("current_density_b_A_dm2"));
  }
  const Json mean =
      figure(numbers_in(scratch / "once-against-twice"), "mean_um");
  CHECK(mean["difference"].get<double>() ==
        Approx(mean["a"].get<double>()).epsilon(1.5e-5));
  CHECK(figure(numbers_in(scratch / "once-against-twice"),
               "voltage_V")["verdict"] == "the same");
}

TEST_CASE("one sheet against two", "[compare]") {
  const Scratch scratch;
  for (const char* name :
       {"token_one_sheet", "token_two_sheets", "spoon_two_sheets"})
    solve_shipped(scratch, name);
  const Run run = compare(
      scratch, {"token_one_sheet", "token_two_sheets", "--out", "against"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(lines_of(run.out).size() <= 40);
  CHECK_THAT(run.out, Contains("only B meets the target of 10 µm") &&
                          Contains("plates more evenly") &&
                          Contains("middle of the right face") &&
                          Contains("Open against/compare.html"));
  const Json numbers = numbers_in(scratch / "against");
  // What a result says of itself is what the comparison says of it.
  const Json one =
      Json::parse(content(scratch / "token_one_sheet/summary.json"));
  const Json two =
      Json::parse(content(scratch / "token_two_sheets/summary.json"));
  const Json thin = figure(numbers, "thinnest_um");
  CHECK(thin["a"] == one["part"]["thickness_um"]["min"]);
  CHECK(thin["b"] == two["part"]["thickness_um"]["min"]);
  CHECK(thin["b_band"] == two["part"]["thickness_um"]["min_band"]);
  CHECK(thin["verdict"] == "beyond the bands");
  // The same current for the same time.
  CHECK(figure(numbers, "mass_g")["verdict"] == "the same");
  // The sheet stands at the left: the right face gains, and it is the thinnest
  // spot, so its difference is that of the averages at one place.
  const Json gain = numbers["parts"][0]["most_gained"];
  CHECK(gain["face"] == "right");
  CHECK(numbers["parts"][0]["most_lost"]["face"] == "left");
  CHECK(gain["difference_um"].get<double>() ==
        Approx(thin["difference"].get<double>()).epsilon(0.02));
  CHECK_THAT(content(scratch / "against/compare.svg"), StartsWith("<svg"));
  CHECK_THAT(content(scratch / "against/compare.html"),
             Contains("<!DOCTYPE html>"));

  SECTION("quiet, once more, into the same folder") {
    const auto before = all_in(scratch / "against");
    const Run again = compare(scratch, {"token_one_sheet", "token_two_sheets",
                                        "--out", "against", "--quiet"});
    CHECK(again.status == 0);
    CHECK(again.out.empty());
    CHECK(all_in(scratch / "against") == before);
  }
  SECTION("what is refused leaves a finished folder as it is") {
    const auto before = all_in(scratch / "against");
    CHECK_THAT(refused(scratch, {"token_one_sheet", "spoon_two_sheets", "--out",
                                 "against"}),
               StartsWith("spoon_two_sheets: ") && Contains("same shape") &&
                   Contains("mm all round"));
    CHECK(all_in(scratch / "against") == before);
    const auto result = all_in(scratch / "token_one_sheet");
    CHECK_THAT(refused(scratch, {"token_one_sheet", "token_two_sheets", "--out",
                                 "token_one_sheet"}),
               Contains("one of what is compared"));
    CHECK(all_in(scratch / "token_one_sheet") == result);
    put(scratch / "mine", "text");
    CHECK(compare(scratch,
                  {"token_one_sheet", "token_two_sheets", "--out", "mine"})
              .status == 3);
    CHECK(content(scratch / "mine") == "text");
  }
}

TEST_CASE("a rack is compared copy by copy", "[compare]") {
  const Scratch scratch;
  solve_shipped(scratch, "rack_of_six");
  const Run run = run_thinspot(
      scratch.path(), {"solve", shipped_case("rack_of_six").string(), "--quiet",
                       "--out", "more", "--set", "step.1.duration=60 min"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  const Run against = compare(scratch, {"rack_of_six", "more"});
  REQUIRE(against.status == 0);
  CHECK(lines_of(against.out).size() <= 40);
  const Json numbers = numbers_in(scratch / "rack_of_six-against-more");
  CHECK(numbers["parts"].size() == 6);
  CHECK(numbers["words"]["copies"].size() == 6);
}

TEST_CASE("a part drawn a quarter turned is the same part", "[compare]") {
  const Scratch scratch;
  const std::string plate = edited(
      "shape = \"coin\"\ndiameter = \"30 mm\"\nthickness = \"2.4 mm\"\n"
      "edge_radius = \"0.3 mm\"",
      "shape = \"plate\"\nwidth = \"4 mm\"\nheight = \"20 mm\"\n"
      "corner_radius = \"0.3 mm\"\narea = \"0.1 dm2\"");
  solve(scratch, plate, "upright");
  std::string turned = plate;
  // Lying it is 20 mm wide; the sheet keeps its distance from its middle.
  turned.replace(turned.find("gap = \"35 mm\""), 13, "gap = \"27 mm\"");
  turned.replace(turned.find("metal = \"brass\""), 0, "turn = \"90 deg\"\n");
  solve(scratch, turned, "lying");
  const Run run = compare(scratch, {"upright", "lying", "--quiet"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  const Json numbers = numbers_in(scratch / "upright-against-lying");
  // A quarter of a turn counter-clockwise: the left face lies lowest, its
  // middle is 12 mm before the lower edge's but for the round corner.
  CHECK(std::abs(numbers["parts"][0]["arc_shift_mm"].get<double>()) ==
        Approx(12 - 0.3 * (2 - std::numbers::pi / 2)).margin(1e-3));
}

TEST_CASE("a result against readings", "[compare]") {
  const Scratch scratch;
  solve(scratch, sound_case(), "a-out");
  const Json summary = Json::parse(content(scratch / "a-out/summary.json"));
  const auto volts = summary["cell"]["voltage_V"].get<double>();
  const auto least = summary["target"]["least_um"].get<double>();
  const auto row = [](const char* what, double value, const char* unit,
                      double plus_minus, const char* at) {
    return std::string(what) + "," + std::to_string(value) + " " + unit + "," +
           std::to_string(plus_minus) + " " + unit + "," + at + "\n";
  };
  const std::string head = "what,reading,plus_minus,at\n";
  put(scratch / "good.csv", head + row("voltage", volts, "V", 0.01, "") +
                                row("thickness", least, "um", 0.5, "thinnest"));
  const Run run = compare(scratch, {"a-out", "good.csv"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, StartsWith("Forecast and readings agree"));
  CHECK(lines_of(run.out).size() <= 40);
  const auto rows = table_in(scratch / "a-out-against-good/compare.csv");
  REQUIRE(rows.size() == 2);
  for (const auto& r : rows) CHECK(std::abs(std::stod(r.at("z"))) < 1e-3);
  CHECK(numbers_in(scratch / "a-out-against-good")["agree"] == true);

  put(scratch / "off.csv",
      head + row("voltage", 3 * volts, "V", 0.01, "") +
          row("thickness", 3 * least, "um", 0.5, "thinnest"));
  const Run off = compare(scratch, {"a-out", "off.csv"});
  REQUIRE(off.status == 0);
  CHECK_THAT(off.out, StartsWith("Forecast and readings do not agree"));
  CHECK(numbers_in(scratch / "a-out-against-off")["agree"] == false);

  put(scratch / "panel.csv",
      "what,reading,plus_minus,at\npanel,9 um,1 um,2 cm\n");
  CHECK_THAT(refused(scratch, {"a-out", "panel.csv"}),
             StartsWith("panel.csv:2: ") && Contains("test cell") &&
                 Contains("leave it out here"));
  CHECK_FALSE(fs::exists(scratch / "a-out-against-panel"));
}

TEST_CASE("what cannot be compared is told in one line", "[compare]") {
  const Scratch scratch;
  solve(scratch, sound_case(), "a-out");
  CHECK_THAT(refused(scratch, {}), Contains("thinspot compare A-out B-out"));
  CHECK_THAT(refused(scratch, {"a-out"}), StartsWith("a-out: "));
  CHECK_THAT(refused(scratch, {"a-out", "a-out", "a-out"}),
             Contains("two at a time"));
  CHECK_THAT(refused(scratch, {"a-out", "nowhere"}),
             StartsWith("nowhere: ") && Contains("no such folder"));
  CHECK_THAT(refused(scratch, {"case.toml", "a-out"}),
             StartsWith("case.toml: ") && Contains("no folder"));
  fs::create_directory(scratch / "empty");
  CHECK_THAT(refused(scratch, {"a-out", "empty"}),
             StartsWith("empty: ") && Contains("no finished results"));
  fs::copy(scratch / "a-out", scratch / "b-out");
  const auto broken = [&](const std::string& name, const std::string& text) {
    const std::string sound = content(scratch / "b-out" / name);
    put(scratch / "b-out" / name, text);
    const std::string line = refused(scratch, {"a-out", "b-out"});
    put(scratch / "b-out" / name, sound);
    CHECK_THAT(line, StartsWith("b-out: " + name + ": "));
  };
  const std::string summary = content(scratch / "b-out/summary.json");
  const std::string surface = content(scratch / "b-out/surface.csv");
  broken("summary.json", "");
  broken("summary.json", "{}");
  broken("summary.json", summary.substr(0, summary.size() / 2));
  broken("summary.json", std::string(200'000, '['));
  broken("surface.csv", surface.substr(0, surface.size() / 2));
  // Of the right length and with a number that is none.
  std::string letters = surface;
  letters[letters.find('\n') + 10] = 'x';
  broken("surface.csv", letters);
  CHECK_FALSE(fs::exists(scratch / "a-out-against-b-out"));
  // Bytes changed one at a time never do worse than being refused.
  for (std::size_t at = 3; at < summary.size(); at += summary.size() / 40) {
    std::string text = summary;
    text[at] = static_cast<char>(text[at] ^ 0x15);
    put(scratch / "b-out/summary.json", text);
    const Run run = compare(scratch, {"a-out", "b-out", "--quiet"});
    CAPTURE(at, run.err);
    CHECK((run.status == 0 || run.status == 2));
    CHECK(lines_of(run.err).size() == (run.status == 0 ? 0 : 1));
  }
}
