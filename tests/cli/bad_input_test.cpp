#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

struct BadCase {
  std::string what;
  std::string from, to;           ///< edit of the sound case
  std::string at;                 ///< text whose line the message must name
  std::vector<std::string> says;  ///< and what else it must hold
};

int line_of(const std::string& text, const std::string& piece) {
  const std::size_t at = text.find(piece);
  REQUIRE(at != std::string::npos);
  return 1 + static_cast<int>(std::count(
                 text.begin(), text.begin() + static_cast<long>(at), '\n'));
}

/// Solves a text as case.toml and checks what holds for every bad input: status
/// 2, nothing on standard output, no folder made.
Run refused(const Scratch& scratch, const std::string& text,
            std::vector<std::string> options = {}) {
  put(scratch / "case.toml", text);
  options.insert(options.begin(), {"solve", "case.toml"});
  const Run run = run_thinspot(scratch.path(), options);
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
      {"unknown key",
       "diameter = \"30 mm\"",
       "diamter = \"30 mm\"",
       "diamter",
       {"part.diamter", "\"diameter\""}},
      {"unknown table",
       "[supply]",
       "[suply]",
       "[suply]",
       {"suply", "\"supply\""}},
      {"wrong unit",
       "width = \"90 mm\"",
       "width = \"90 A\"",
       "90 A",
       {"tank.width", "90 A", "mm"}},
      {"no such unit",
       "width = \"90 mm\"",
       "width = \"90 mn\"",
       "90 mn",
       {"tank.width", "mn"}},
      {"bare number",
       "width = \"90 mm\"",
       "width = 90",
       "width = 90",
       {"tank.width", "unit"}},
      {"not finite",
       "width = \"90 mm\"",
       "width = \"nan mm\"",
       "nan mm",
       {"tank.width"}},
      {"negative",
       "width = \"90 mm\"",
       "width = \"-90 mm\"",
       "-90 mm",
       {"tank.width"}},
      {"missing key",
       "thickness = \"2.4 mm\"\n",
       "",
       "[part]",
       {"part.thickness", "missing"}},
      {"overlap",
       "side = \"left\"\ngap = \"35 mm\"",
       "at = [\"44 mm\", \"50 mm\"]",
       "[[anode]]",
       {"anode.sheet", "part"}},
      {"out of the tank",
       "at = [\"45 mm\", \"50 mm\"]",
       "at = [\"450 mm\", \"50 mm\"]",
       "[part]",
       {"part: ", "tank"}},
      {"above the liquid",
       "at = [\"45 mm\", \"50 mm\"]",
       "at = [\"45 mm\", \"150 mm\"]",
       "[part]",
       {"part: ", "liquid"}},
      {"no such shape",
       "shape = \"coin\"",
       "shape = \"coi\"",
       "\"coi\"",
       {"part.shape", "\"coin\""}},
      {"no such metal",
       "metal = \"copper\"\nconductivity",
       "metal = \"coper\"\nconductivity",
       "\"coper\"",
       {"solution.metal", "\"copper\""}},
      {"two ways to say one thing",
       "current = \"0.33 A\"",
       "current = \"0.33 A\"\nvoltage = \"1 V\"",
       "voltage = \"1 V\"",
       {"supply", "current", "voltage"}},
      {"no such face",
       "thickness = \"5 um\"",
       "thickness = \"5 um\"\nfaces = [\"north\"]",
       "faces",
       {"target.faces", "north", "left"}},
      {"no such face to mask",
       "[cathode]",
       "[[mask]]\nfaces = [\"upper rym\"]\n[cathode]",
       "upper rym",
       {"mask.1.faces", "\"upper rim\""}},
      {"a mask on nothing known",
       "[cathode]",
       "[[mask]]\non = \"anode.sheat\"\nfaces = [\"left\"]\n[cathode]",
       "anode.sheat",
       {"mask.1.on", "\"anode.sheet\""}},
      {"one place and a rack",
       "[cathode]",
       "[rack]\nat = [[\"45 mm\", \"50 mm\"]]\n[cathode]",
       "at = [\"45 mm\", \"50 mm\"]\nmetal",
       {"part.at", "rack.at"}},
      {"a drawing elsewhere",
       "[cathode]",
       "[[shield]]\nshape = \"outline\"\nfile = \"/etc/hostname\"\n"
       "at = [\"30 mm\", \"50 mm\"]\n[cathode]",
       "/etc/hostname",
       {"shield.1.file", "absolute"}},
      {"a drawing that is not there",
       "[cathode]",
       "[[thief]]\nshape = \"outline\"\nfile = \"absent.csv\"\n"
       "at = [\"70 mm\", \"50 mm\"]\n[cathode]",
       "absent.csv",
       {"thief.1.file"}},
      {"floating metal touches the part",
       "[cathode]",
       "[[floating]]\nshape = \"plate\"\nwidth = \"2 mm\"\n"
       "height = \"9 mm\"\nat = [\"46 mm\", \"50 mm\"]\n[cathode]",
       "[[floating]]",
       {"floating.1", "part"}},
      {"not TOML", "[tank]", "[tank", "[tank", {}},
  }));
  CAPTURE(bad.what);
  const Scratch scratch;
  const std::string text = edited(bad.from, bad.to);
  const Run run = refused(scratch, text);
  CAPTURE(run.err);
  CHECK_THAT(
      run.err,
      Contains("case.toml:" + std::to_string(line_of(text, bad.at)) + ": "));
  for (const std::string& word : bad.says) CHECK_THAT(run.err, Contains(word));
  // What is wrong; what would be right.
  for (const std::string& line : lines_of(run.err))
    CHECK_THAT(line, Contains("; "));
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
  const Run none = run_thinspot(scratch.path(), {"solve", "absent.toml"});
  CHECK(none.status == 2);
  CHECK_THAT(none.err, StartsWith("absent.toml: ") && Contains("no such file"));

  CHECK_THAT(refused(scratch, "").err, StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, "\n# nothing\n").err, StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, std::string(1000, '\0')).err,
             StartsWith("case.toml"));
  CHECK_THAT(refused(scratch, "\xff\xfe").err, StartsWith("case.toml"));

  const Run folder = run_thinspot(scratch.path(), {"solve", "."});
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

TEST_CASE("a case without a target has nothing to be --strict about") {
  const Scratch scratch;
  const Run run = refused(
      scratch, edited("[target]\nthickness = \"5 um\"\n", ""), {"--strict"});
  CHECK_THAT(run.err, StartsWith("--strict: ") && Contains("[target]"));
}
