#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// One line on standard error, status 2: the command line itself is wrong.
std::string complaint(const std::vector<std::string>& arguments) {
  const Scratch scratch;
  const Run run = run_thinspot(scratch.path(), arguments);
  CAPTURE(run.err);
  CHECK(run.status == 2);
  CHECK(run.out.empty());
  CHECK(lines_of(run.err).size() == 1);
  return run.err;
}

}  // namespace

TEST_CASE("help and version go to standard output") {
  const Scratch scratch;
  const Run version = run_thinspot(scratch.path(), {"--version"});
  CHECK(version.status == 0);
  // As the page with the figures says in its head.
  std::string verified;
  for (const std::string& line :
       lines_of(content(THINSPOT_SOURCE "/docs/verification.md")))
    if (verified.empty() && line.starts_with("Verified on "))
      verified = line.substr(12, line.size() - 13);
  CHECK_THAT(verified, Contains(" at commit "));
  CHECK(version.out ==
        "thinspot " THINSPOT_VERSION ", verified " + verified + "\n");
  for (const std::vector<std::string>& arguments :
       std::vector<std::vector<std::string>>{
           {"--help"}, {"help"}, {"-h"}, {"solve", "--help"}}) {
    const Run help = run_thinspot(scratch.path(), arguments);
    CHECK(help.status == 0);
    CHECK(help.err.empty());
    CHECK_THAT(help.out, Contains("thinspot solve CASE.toml"));
  }
}

TEST_CASE("a wrong command line gets one line that helps") {
  CHECK_THAT(complaint({}), Contains("thinspot solve CASE.toml"));
  CHECK_THAT(complaint({"slove", "case.toml"}), Contains("nearest: solve"));
  CHECK_THAT(complaint({"xyzzy"}), Contains("--help"));
  CHECK_THAT(complaint({"case.toml"}), Contains("thinspot solve case.toml"));
  CHECK_THAT(complaint({"solve"}), Contains("no case file"));
  CHECK_THAT(complaint({"check", "a.toml", "b.toml", "--out", "c.svg"}),
             StartsWith("--out: "));
  CHECK_THAT(complaint({"solve", "a.toml", "--quite"}),
             StartsWith("--quite: ") && Contains("nearest: --quiet"));
  CHECK_THAT(complaint({"solve", "a.toml", "--out"}),
             StartsWith("--out: ") && Contains("value"));
  CHECK_THAT(complaint({"solve", "a.toml", "--out="}), StartsWith("--out"));
  CHECK_THAT(complaint({"solve", "a.toml", "--out", ""}), StartsWith("--out"));
  CHECK_THAT(complaint({"solve", "a.toml", "--out", "b", "--out", "c"}),
             StartsWith("--out: ") && Contains("more than once"));
  CHECK_THAT(complaint({"solve", "a.toml", "--quiet=yes"}),
             StartsWith("--quiet: ") && Contains("no value"));
  // An abbreviation might mean something else one day.
  CHECK_THAT(complaint({"solve", "a.toml", "--ou", "b"}), StartsWith("--ou: "));
  CHECK_THAT(complaint({"solve", "-x"}), StartsWith("-x: "));
}

TEST_CASE("each exit status") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const auto status = [&](std::vector<std::string> options) {
    options.insert(options.begin(), {"solve", "case.toml", "--quiet"});
    const Run run = run_thinspot(scratch.path(), options);
    CHECK(run.out.empty());
    // Only what has no result to show has something to complain about.
    CHECK(run.err.empty() == (run.status < 2));
    return run.status;
  };
  CHECK(status({}) == 0);
  CHECK(status({"--strict"}) == 0);
  CHECK(status({"--set", "target.thickness=500 um"}) == 0);
  CHECK(status({"--set", "target.thickness=500 um", "--strict"}) == 1);
  CHECK(status({"--set", "part.diameter=3 A"}) == 2);
  CHECK(status({"--out", "/dev/null/under"}) == 3);
  // Ten nanometres of the rim out of the liquid leave a wedge that no mesh can
  // fill.
  CHECK(status({"--set", "part.at.y=84.99999 mm"}) == 4);
}

TEST_CASE("the summary is short and plain") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const Run run = run_thinspot(scratch.path(), {"solve", "case.toml"});
  CAPTURE(run.out);
  REQUIRE(run.status == 0);
  CHECK(run.err.empty());
  const auto lines = lines_of(run.out);
  CHECK(lines.size() <= 43);
  for (const std::string& line : lines) {
    // No colour in a file, and no more than 80 columns of it.
    CHECK(line.find('\x1b') == std::string::npos);
    const auto columns = std::count_if(line.begin(), line.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
    });
    CHECK(columns <= 80);
  }
  CHECK(lines[0] == "a token");
  CHECK_THAT(lines[1], StartsWith("Target met"));
  CHECK(lines.back() == "Open case-out/report.html");
  CHECK_THAT(run.out, Contains("voltmeter"));
  CHECK_THAT(run.out, Contains("Wagner number"));
}

TEST_CASE("neither a title nor a folder's name can steer the terminal") {
  const Scratch scratch;
  const auto steers = [](const std::string& text) {
    return text.find('\x1b') != std::string::npos ||
           text.find("\xc2\x9b") != std::string::npos;
  };
  put(scratch / "case.toml",
      edited("title = \"a token\"", "title = \"a\\u001b[2J\\u009b token\""));
  const Run title = run_thinspot(scratch.path(), {"solve", "case.toml"});
  CHECK(title.status == 2);
  CHECK_THAT(title.err, Contains("title"));
  CHECK_FALSE(steers(title.err));

  put(scratch / "case.toml", sound_case());
  const Run folder = run_thinspot(
      scratch.path(), {"solve", "case.toml", "--out", "a\x1b[2J\xc2\x9b-b"});
  CHECK(folder.status == 0);
  CHECK_THAT(folder.out, Contains("Open a[2J-b/report.html"));
  CHECK_FALSE(steers(folder.out));
}

TEST_CASE("standard output that is closed, broken or full") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  CHECK(shell(scratch.path(), "\"$THINSPOT\" solve case.toml >&-").status == 0);
  // The summary must not land in a file that took the free number; the page,
  // the card and summary.json hold the verdict themselves.
  for (const auto& entry :
       std::filesystem::directory_iterator(scratch / "case-out"))
    if (entry.path().extension() != ".html" &&
        entry.path().extension() != ".json")
      CHECK_THAT(content(entry.path()), !Contains("Open case-out"));
  const Run broken =
      shell(scratch.path(),
            "set -o pipefail; \"$THINSPOT\" solve case.toml | sleep 0");
  CHECK(broken.status == 0);
  CHECK(broken.err.empty());
  const Run full =
      shell(scratch.path(), "\"$THINSPOT\" solve case.toml >/dev/full");
  CHECK(full.status == 3);
  CHECK_THAT(full.err, Contains("No space left"));
}
