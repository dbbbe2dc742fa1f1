// What is said of the part before it goes in, by check and by solve.
#include "tests/cli/program.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <filesystem>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

Run check(const Scratch& scratch, std::vector<std::string> options) {
  put(scratch / "case.toml", sound_case());
  options.insert(options.begin(), {"check", "case.toml"});
  const Run run = run_thinspot(scratch.path(), options);
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  for (const std::string& line : lines_of(run.out)) {
    CAPTURE(line);
    std::size_t columns = 0;
    for (const char ch : line)
      if ((static_cast<unsigned char>(ch) & 0xc0) != 0x80) ++columns;
    CHECK(columns <= 80);
  }
  return run;
}

}  // namespace

TEST_CASE("check says what the part needs, verdict first") {
  const Scratch scratch;
  const Run brass = check(scratch, {});
  CHECK_THAT(brass.out, Contains("\nPrepare:  Acid copper holds on brass"));
  CHECK_THAT(brass.out, Contains("\n          Smooth and polish; wash off"));
  CHECK_THAT(brass.out, Contains("into the solution within 1 min"));
  CHECK_THAT(brass.out, !Contains("ASTM B281"));
  CHECK_THAT(brass.out, Contains("more with --full"));
  const Run full = check(scratch, {"--full"});
  CHECK_THAT(full.out, Contains("\n          1. smooth and polish\n"));
  CHECK_THAT(full.out, Contains("ASTM B281") && Contains("ASTM B571") &&
                           Contains("Why a coating peels"));
  CHECK_THAT(full.out, !Contains("more with --full"));
  CHECK(lines_of(full.out).size() > lines_of(brass.out).size());
}

TEST_CASE("check says plainly what will not hold") {
  const Scratch scratch;
  const Run stainless = check(scratch, {"--set", "part.metal=stainless"});
  CHECK_THAT(stainless.out,
             Contains("- Acid copper straight onto stainless steel"));
  CHECK_THAT(stainless.out, Contains("will not hold"));
  const Run struck =
      check(scratch, {"--set", "part.metal=stainless, nickel strike"});
  CHECK_THAT(struck.out,
             Contains("\nPrepare:  Acid copper holds on stainless"));
  CHECK_THAT(struck.out, !Contains("will not hold"));
  // One that is not known is no error.
  const Run odd = check(scratch, {"--set", "part.metal=unobtainium"});
  CHECK_THAT(odd.out, Contains("does not know \"unobtainium\""));
  CHECK_THAT(odd.out, Contains("would weigh in copper"));
}

TEST_CASE("a class of a standard is said with what is known of it") {
  const Scratch scratch;
  put(scratch / "plain.toml", edited("thickness = \"5 um\"\n",
                                     "standard = \"ASTM B734\"\nclass = "
                                     "\"Class 5\"\n"));
  const Run checked = run_thinspot(scratch.path(), {"check", "plain.toml"});
  CHECK_THAT(checked.out, Contains("\nTarget:   ASTM B734, Class 5"));
  const Run run = run_thinspot(scratch.path(), {"solve", "plain.toml"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out, Contains("ASTM B734") && Contains("from memory"));
  const auto summary =
      nlohmann::json::parse(content(scratch / "plain-out/summary.json"));
  CHECK(summary["target"]["wanted_um"] == 5.0);
  CHECK(summary["target"]["class"] == "Class 5");
  // Of another metal.
  put(scratch / "zinc.toml",
      edited("thickness = \"5 um\"\n",
             "standard = \"ASTM B633\"\nclass = \"Fe/Zn 5\"\n"));
  const Run zinc = run_thinspot(scratch.path(), {"check", "zinc.toml"});
  CHECK_THAT(zinc.out, Contains("- ASTM B633 Fe/Zn 5 is a class of zinc"));
}

TEST_CASE("solve says whether each layer holds") {
  const Scratch scratch;
  const Run run = run_thinspot(
      scratch.path(), {"solve", shipped_case("token_copper").string(),
                       shipped_case("token_nickel").string(), "--out", "out"});
  CAPTURE(run.err);
  REQUIRE(run.status == 0);
  CHECK_THAT(run.out,
             Contains("\nPrepare:  Nickel holds on fresh acid copper"));
  CHECK_THAT(run.out, Contains("the current is off"));
  const auto summary =
      nlohmann::json::parse(content(scratch / "out/summary.json"));
  REQUIRE(summary["preparation"].size() == 2);
  CHECK(summary["preparation"][0]["holds"] == "holds");
  CHECK(summary["preparation"][1]["onto"] == "fresh acid copper");
  CHECK(summary["preparation"][1]["interruptions"].size() == 1);
  REQUIRE(summary["caution_sources"].size() == summary["cautions"].size());
  CHECK_THAT(content(scratch / "out/report.html"),
             Contains("Before it goes in"));
}
