// thinspot plan as its user sees it.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using Json = nlohmann::json;
namespace fs = std::filesystem;

namespace {

Run plan(const Scratch& scratch, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"plan", "case.toml"});
  return run_thinspot(scratch.path(), options);
}

/// One column a code point.
std::size_t columns(const std::string& line) {
  std::size_t n = 0;
  for (const char c : line)
    if ((static_cast<unsigned char>(c) & 0xc0) != 0x80) ++n;
  return n;
}

/// A plan on the terminal, and its folder.
void check_told(const Run& run, const fs::path& folder) {
  CAPTURE(run.out);
  const auto lines = lines_of(run.out);
  CHECK(lines.size() <= 40);
  for (const std::string& line : lines) CHECK(columns(line) <= 80);
  const Json json = Json::parse(content(folder / "plan.json"));
  // The verdict is broken into lines: its first words stand in one.
  CHECK_THAT(
      lines.at(1),
      StartsWith(json["words"]["verdict"].get<std::string>().substr(0, 20)));
  for (const std::string word :
       {"To do\n", "drawn       planned\n", "Time at the bench",
        "Largest over least", "Thinnest spot", "Metal", "Densest spot",
        "Caution: "})
    CHECK_THAT(run.out, Contains(word));
  CHECK(lines.back() == "Open " + (folder.filename() / "plan.html").string());
  std::set<std::string> files{".thinspot", "plan.json"};
  for (const Json& f : json["files"]) {
    const std::string name = f["name"];
    files.insert(name);
    CHECK(fs::file_size(folder / name) == f["bytes"]);
  }
  CHECK(names_in(folder) == files);
}

}  // namespace

TEST_CASE("plan: what to do, and a case file that solves to what it says") {
  const Scratch scratch;
  fs::copy_file(shipped_case("token_one_sheet"), scratch / "case.toml");
  const Run run = plan(scratch);
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  check_told(run, scratch / "case-plan");
  const Json json = Json::parse(content(scratch / "case-plan/plan.json"));
  const Json best = json["set_ups"][0], drawn = json["drawn"];
  CHECK(best["figures"]["bench_min"] < drawn["figures"]["bench_min"]);
  CHECK(best["breaks"].empty());
  CHECK_FALSE(best["changes"].empty());
  CHECK_THAT(content(scratch / "case-plan/plan.svg"), StartsWith("<svg"));

  REQUIRE(run_thinspot(scratch / "case-plan",
                       {"solve", "planned.toml", "--quiet", "--strict"})
              .status == 0);
  const Json solved =
      Json::parse(content(scratch / "case-plan/planned-out/summary.json"));
  CHECK(solved["target"]["time_needed_min"].get<double>() ==
        Approx(best["figures"]["plating_min"].get<double>()).epsilon(1e-3));
  CHECK(solved["cell"]["current_A"].get<double>() ==
        Approx(best["figures"]["current_A"].get<double>()).epsilon(1e-3));
}

TEST_CASE("plan: only what varies moves, and --set goes into the file") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  const Run run = plan(scratch, {"--goal", "evenness", "--out", "here", "--set",
                                 "plan.max_time=90 min"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  check_told(run, scratch / "here");
  CHECK_FALSE(fs::exists(scratch / "case-plan"));
  const Json json = Json::parse(content(scratch / "here/plan.json"));
  CHECK(json["goal"] == "evenness");
  for (const Json& s : json["set_ups"])
    for (const Json& change : s["changes"])
      CHECK_THAT(change.get<std::string>(), StartsWith("move the sheet") ||
                                                StartsWith("set ") ||
                                                StartsWith("plate for "));
  const std::string text = content(scratch / "here/planned.toml");
  CHECK_THAT(text, StartsWith("# Made by thinspot plan from case.toml: ") &&
                       Contains("goal = \"evenness\"  # new") &&
                       Contains("max_time = \"90 min\"  # new"));

  // Planned further, it is not written over.
  const Run further = run_thinspot(
      scratch / "here", {"plan", "planned.toml", "--out", "../here"});
  CHECK(further.status == 2);
  CHECK_THAT(further.err, StartsWith("planned.toml: ") && Contains("--out"));
  CHECK(content(scratch / "here/planned.toml") == text);

  // Again, quietly: the folder is ours, and what is left from before goes.
  put(scratch / "here/planned_4.toml", "# of an earlier plan");
  const Run again = plan(scratch, {"--quiet", "--out", "here"});
  CHECK(again.status == 0);
  CHECK(again.out.empty());
  CHECK_FALSE(fs::exists(scratch / "here/planned_4.toml"));
}

TEST_CASE("plan --strict tells what is out of reach by its status") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  const std::vector<std::string> hasty{"--set", "plan.max_time=5 min"};
  const Run run = plan(scratch, hasty);
  CHECK(run.status == 0);
  check_told(run, scratch / "case-plan");
  CHECK_THAT(run.out, Contains("Out of reach: "));
  CHECK(Json::parse(content(scratch / "case-plan/plan.json"))["out_of_reach"]
            .is_object());
  std::vector<std::string> strict = hasty;
  strict.emplace_back("--strict");
  CHECK(plan(scratch, strict).status == 1);
}

TEST_CASE("plan: bad input is status 2, said with its line") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  put(scratch / "untold.toml", edited("thickness = \"5 um\"\n", ""));
  put(scratch / "wrong.toml", quick_to_plan() + "goal = \"fast\"\n");
  const struct {
    std::vector<std::string> arguments;
    const char* says;
  } wrong[] = {
      {{}, "no case file is given"},
      {{"case.toml", "untold.toml"}, "plan each layer by itself"},
      {{"nowhere.toml"}, "nowhere.toml"},
      {{"case.toml", "--goal", "speed"}, "time, evenness or metal"},
      {{"case.toml", "--set", "plan.max_anodes=9"}, "1 .. 4"},
      {{"case.toml", "--sett", "x"}, "nearest: --set"},
      {{"wrong.toml"}, "wrong.toml:"},
  };
  for (const auto& w : wrong) {
    std::vector<std::string> arguments{"plan"};
    arguments.insert(arguments.end(), w.arguments.begin(), w.arguments.end());
    const Run run = run_thinspot(scratch.path(), arguments);
    CAPTURE(w.says, run.err);
    CHECK(run.status == 2);
    CHECK(run.out.empty());
    CHECK_THAT(run.err, Contains(w.says));
  }
  for (const auto& entry : fs::directory_iterator(scratch.path()))
    CHECK_FALSE(entry.is_directory());
}

TEST_CASE("plan: a folder that cannot be used is status 3, before any work") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  fs::create_directory(scratch / "mine");
  put(scratch / "mine/letter.txt", "dear");
  const Run run = plan(scratch, {"--out", "mine"});
  CHECK(run.status == 3);
  CHECK_THAT(run.err, StartsWith("mine: ") && Contains("--out"));
  CHECK(names_in(scratch / "mine") == std::set<std::string>{"letter.txt"});
  CHECK(plan(scratch, {"--out", "case.toml/under"}).status == 3);
}

TEST_CASE("plan: drawings go along with the case") {
  const Scratch scratch;
  fs::copy_file(shipped_case("trapezoid_cell"), scratch / "case.toml");
  fs::copy_file(THINSPOT_SOURCE "/cases/trapezoid_cell.csv",
                scratch / "trapezoid_cell.csv");
  const Run run =
      plan(scratch, {"--quiet", "--set", "target.thickness=5 um", "--set",
                     "plan.max_anodes=1", "--set", "plan.max_turns=0"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK(content(scratch / "case-plan/trapezoid_cell.csv") ==
        content(scratch / "trapezoid_cell.csv"));
  CHECK(run_thinspot(scratch / "case-plan", {"check", "planned.toml"}).status ==
        0);
}

TEST_CASE("plan --help tells its options and where more is said") {
  const Scratch scratch;
  const Run run = run_thinspot(scratch.path(), {"plan", "--help"});
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  for (const std::string word : {"--out DIR", "--goal GOAL", "--strict",
                                 "docs/case_file.md", "docs/outputs.md"})
    CHECK_THAT(run.out, Contains(word));
  CHECK_THAT(run_thinspot(scratch.path(), {"--help"}).out,
             Contains("thinspot plan CASE.toml"));
}
