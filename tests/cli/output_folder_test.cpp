#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

Run solve_into(const Scratch& scratch, const std::string& folder) {
  put(scratch / "case.toml", sound_case());
  return run_thinspot(scratch.path(),
                      {"solve", "case.toml", "--quiet", "--out", folder});
}

}  // namespace

TEST_CASE("the folder that --out names is made where it is not there") {
  const Scratch scratch;
  REQUIRE(solve_into(scratch, "some/where").status == 0);
  CHECK(fs::exists(scratch / "some/where/summary.json"));
  CHECK_FALSE(fs::exists(scratch / "case-out"));
  // Again: it is ours now.
  CHECK(solve_into(scratch, "some/where").status == 0);
}

TEST_CASE("a folder that is not ours is refused and left alone") {
  const Scratch scratch;
  fs::create_directory(scratch / "mine");
  put(scratch / "mine/letter.txt", "dear");
  const Run run = solve_into(scratch, "mine");
  CHECK(run.status == 3);
  CHECK_THAT(run.err, StartsWith("mine: ") && Contains("--out"));
  CHECK(lines_of(run.err).size() == 1);
  CHECK(std::distance(fs::directory_iterator(scratch / "mine"), {}) == 1);
}

TEST_CASE("a file in the way is status 3") {
  const Scratch scratch;
  put(scratch / "file", "here");
  CHECK(solve_into(scratch, "file").status == 3);
  CHECK(solve_into(scratch, "file/under").status == 3);
  CHECK(content(scratch / "file") == "here");
}

TEST_CASE("a run cut short by a full disk leaves no summary and no scrap") {
  const Scratch scratch;
  REQUIRE(solve_into(scratch, "out").status == 0);
  // Files may not grow past 8 blocks of 1024 bytes: the page does not fit.
  const Run run = shell(scratch.path(),
                        "ulimit -f 8; exec \"$THINSPOT\" solve case.toml "
                        "--quiet --out out");
  CHECK(run.status == 3);
  CHECK_THAT(run.err, Contains("too large"));
  CHECK_FALSE(fs::exists(scratch / "out/summary.json"));
  for (const auto& entry : fs::directory_iterator(scratch / "out"))
    CHECK(entry.path().extension() != ".tmp");
  // Unfinished, but known as ours.
  CHECK(solve_into(scratch, "out").status == 0);
  CHECK(fs::exists(scratch / "out/summary.json"));
}

TEST_CASE("a case that fails leaves an earlier result whole") {
  const Scratch scratch;
  REQUIRE(solve_into(scratch, "out").status == 0);
  const std::string before = content(scratch / "out/summary.json");
  const Run run = run_thinspot(scratch.path(),
                               {"solve", "case.toml", "--out", "out", "--set",
                                "part.at=[\"450 mm\", \"50 mm\"]"});
  CHECK(run.status == 2);
  CHECK(content(scratch / "out/summary.json") == before);
}
