#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

struct BadCase {
  std::string what;
  std::string from, to;             ///< edit of the sound case
  int line;                         ///< that the message must name
  std::vector<std::string> says;    ///< and what else it must hold
};

/// Solves a text as case.toml and checks what holds for every bad input: status
/// 2, nothing on standard output, no folder made.
Run refused(const Scratch& scratch, const std::string& text,
            std::vector<std::string> options = {}) {
  put(scratch / "case.toml", text);
  options.insert(options.begin(), {"solve", "case.toml"});
  const Run run = thinspot(scratch.path(), options);
  CAPTURE(run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK_FALSE(run.err.empty());
  CHECK_FALSE(std::filesystem::exists(scratch / "case-out"));
  return run;
}

}  // namespace

TEST_CASE("one thing wrong: file, line, key, what, and what would be right") {
  const BadCase bad = GENERATE(values<BadCase>({
      {"unknown key", "diameter = \"30 mm\"", "diamter = \"30 mm\"", 18,
       {"part.diamter", "diameter"}},
      {"unknown table", "[supply]", "[suply]", 37, {"suply", "supply"}},
      {"wrong unit", "width = \"90 mm\"", "width = \"90 A\"", 8,
       {"tank.width", "90 A", "mm"}},
      {"no such unit", "width = \"90 mm\"", "width = \"90 mn\"", 8,
       {"tank.width", "mn"}},
      {"bare number", "width = \"90 mm\"", "width = 90", 8,
       {"tank.width", "unit"}},
      {"not finite", "width = \"90 mm\"", "width = \"nan mm\"", 8,
       {"tank.width"}},
      {"negative", "width = \"90 mm\"", "width = \"-90 mm\"", 8,
       {"tank.width"}},
      {"missing key", "thickness = \"2.4 mm\"\n", "", 16,
       {"part.thickness"}},
      {"overlap", "at = [\"45 mm\", \"50 mm\"]", "at = [\"9 mm\", \"50 mm\"]",
       24, {"sheet"}},
      {"out of the tank", "at = [\"45 mm\", \"50 mm\"]",
       "at = [\"450 mm\", \"50 mm\"]", 16, {"part"}},
      {"above the liquid", "at = [\"45 mm\", \"50 mm\"]",
       "at = [\"45 mm\", \"150 mm\"]", 16, {"part"}},
      {"no such shape", "shape = \"coin\"", "shape = \"coi\"", 17,
       {"part.shape", "coin"}},
      {"no such metal", "metal = \"copper\"\nconductivity",
       "metal = \"coper\"\nconductivity", 14, {"solution.metal", "copper"}},
      {"two ways to say one thing", "current = \"0.33 A\"",
       "current = \"0.33 A\"\nvoltage = \"1 V\"", 37,
       {"supply", "current", "voltage"}},
      {"no such face", "thickness = \"5 um\"",
       "thickness = \"5 um\"\nfaces = [\"north\"]", 45, {"faces", "north"}},
      {"not TOML", "[tank]", "[tank", 6, {}},
  }));
  CAPTURE(bad.what);
  const Scratch scratch;
  const Run run = refused(scratch, edited(bad.from, bad.to));
  const auto lines = lines_of(run.err);
  CAPTURE(run.err);
  REQUIRE(lines.size() >= 1);
  // Lines are counted to within the table that a missing key belongs to.
  CHECK_THAT(run.err,
             Contains("case.toml:" + std::to_string(bad.line) + ": "));
  for (const std::string& word : bad.says) CHECK_THAT(run.err, Contains(word));
  CHECK_THAT(run.err, Contains("; "));
}

TEST_CASE("several things wrong are told at once, in order") {
  const Scratch scratch;
  std::string text = edited("width = \"90 mm\"", "width = 90");
  const auto replace = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  replace("diameter = \"30 mm\"", "diamter = \"30 mm\"");
  replace("gap = \"35 mm\"", "gap = \"35 s\"");
  const Run run = refused(scratch, text);
  const std::size_t width = run.err.find("tank.width");
  const std::size_t diameter = run.err.find("part.diamter");
  const std::size_t gap = run.err.find("anode.sheet.gap");
  CHECK(width < diameter);
  CHECK(diameter < gap);
  CHECK(gap != std::string::npos);
}

TEST_CASE("ten lines are told, then how many more") {
  const Scratch scratch;
  std::string wrong = "[tank]\n";
  for (int k = 1; k <= 13; ++k)
    wrong += "nonsense_" + std::to_string(k) + " = 1\n";
  const Run run = refused(scratch, edited("[tank]\n", wrong));
  const auto lines = lines_of(run.err);
  REQUIRE(lines.size() == 11);
  CHECK_THAT(lines[9], StartsWith("case.toml:16: tank.nonsense_10: "));
  CHECK(lines[10] == "… and 3 more");
}

TEST_CASE("files that are no case") {
  const Scratch scratch;
  const Run none = thinspot(scratch.path(), {"solve", "absent.toml"});
  CHECK(none.status == 2);
  CHECK_THAT(none.err, StartsWith("absent.toml: ") && Contains("no such file"));

  CHECK_THAT(refused(scratch, "").err, StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, "\n# nothing\n").err, StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, std::string(1000, '\0')).err,
             StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, "\xff\xfe").err, StartsWith("case.toml"));

  const Run folder = thinspot(scratch.path(), {"solve", "."});
  CHECK(folder.status == 2);
  CHECK_THAT(folder.err, StartsWith(".: "));
}

TEST_CASE("overrides are checked like keys") {
  const Scratch scratch;
  CHECK_THAT(refused(scratch, sound_case(), {"--set", "part.diamter=3 mm"}).err,
             StartsWith("--set: part.diamter: ") && Contains("part.diameter"));
  CHECK_THAT(refused(scratch, sound_case(), {"--set", "tank.width=90"}).err,
             StartsWith("--set: tank.width: ") && Contains("unit"));
  CHECK_THAT(refused(scratch, sound_case(), {"--set", "tank.width"}).err,
             StartsWith("--set: "));
  CHECK_THAT(refused(scratch, sound_case(), {"--tolerance", "90 %"}).err,
             Contains("tolerance"));
}

TEST_CASE("--strict needs a target to be strict about") {
  const Scratch scratch;
  const Run run = refused(
      scratch, edited("[target]\nthickness = \"5 um\"\n", ""), {"--strict"});
  CHECK_THAT(run.err, StartsWith("--strict: ") && Contains("[target]"));
}
