#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

/// The sound case with something that holds the part.
std::string held_case() {
  return sound_case() +
         "\n[[wire]]\ndiameter = \"0.8 mm\"\nwetted = \"20 mm\"\n";
}

Run check(const Scratch& scratch, std::vector<std::string> options = {}) {
  options.insert(options.begin(), {"check", "case.toml"});
  return run_thinspot(scratch.path(), options);
}

}  // namespace

TEST_CASE("check: what a person wants to know, and where the drawing is") {
  const Scratch scratch;
  put(scratch / "case.toml", held_case());
  const Run run = check(scratch);
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  const auto lines = lines_of(run.out);
  REQUIRE(lines.size() > 5);
  CHECK(lines.size() <= 30);
  CHECK(lines[0] == "a token");
  CHECK(lines[1] == "Nothing looks wrong.");
  for (const std::string word :
       {"\nPart:     16.2 cm²", "\nCurrent:  0.33 A is 1.92 A/dm²",
        "inside the usual 1.6 to 5.4 A/dm²", "\nVoltage:  ", "\nTime:     ",
        "\nAnodes:   36.2 cm²", "\nHanging:  no hollow"})
    CHECK_THAT(run.out, Contains(word));
  CHECK_THAT(run.out, Contains("do not replace safety data sheets"));
  CHECK(lines.back() == "Open case-check.svg");
  CHECK_THAT(content(scratch / "case-check.svg"), Contains("<svg"));
  // Nothing else: no results, nothing half written.
  for (const auto& entry : fs::directory_iterator(scratch.path()))
    CHECK((entry.path().filename() == "case.toml" ||
           entry.path().filename() == "case-check.svg"));
  for (const std::string& line : lines) {
    CAPTURE(line);
    // One column a code point.
    std::size_t columns = 0;
    for (const char ch : line)
      if ((static_cast<unsigned char>(ch) & 0xc0) != 0x80) ++columns;
    CHECK(columns <= 80);
  }
}

TEST_CASE("check: remarks come first and leave the status at 0") {
  const Scratch scratch;
  put(scratch / "case.toml", held_case());
  const Run one = check(scratch, {"--set", "anode.sheet.gap=2 mm"});
  CHECK(one.status == 0);
  CHECK_THAT(one.out, Contains("a token\nOne thing to look at"));
  CHECK_THAT(one.out, Contains("Anode sheet stands 2 mm from the part"));
  const Run two = check(scratch, {"--set", "anode.sheet.gap=2 mm", "--set",
                                  "supply.current=2 A"});
  CHECK(two.status == 0);
  CHECK_THAT(two.out, Contains(" things to look at before the part gets wet"));
  CHECK_THAT(two.out, Contains("more than the usual 5.38 A/dm²"));
}

TEST_CASE("check: the drawing goes where it is asked to, and nowhere else") {
  const Scratch scratch;
  put(scratch / "case.toml", held_case());
  const Run run = check(scratch, {"--out", "my drawing.svg", "--quiet"});
  CHECK(run.status == 0);
  CHECK(run.out.empty());
  CHECK_FALSE(fs::exists(scratch / "case-check.svg"));
  const std::string first = content(scratch / "my drawing.svg");
  CHECK_THAT(first, Contains("<svg"));
  // Again over its own: the same bytes.
  CHECK(check(scratch, {"--out", "my drawing.svg", "--quiet"}).status == 0);
  CHECK(content(scratch / "my drawing.svg") == first);
  // Never over the user's.
  const std::string before = content(scratch / "case.toml");
  const Run over = check(scratch, {"--out", "case.toml"});
  CHECK(over.status == 3);
  CHECK(over.out.empty());
  CHECK(lines_of(over.err).size() == 1);
  CHECK_THAT(over.err, StartsWith("case.toml: ") && Contains("no picture"));
  CHECK(content(scratch / "case.toml") == before);
  CHECK(check(scratch, {"--out", "."}).status == 3);
  CHECK(check(scratch, {"--out", "missing/a.svg"}).status == 3);
  CHECK(check(scratch, {"--out", "case.toml/a.svg"}).status == 3);
}

TEST_CASE("check: bad input is refused as in a solve") {
  const Scratch scratch;
  put(scratch / "case.toml", held_case());
  for (const std::string set :
       {"part.diameter=3 A", "anode.sheet.gap=200 mm", "tank.level=10 mm"}) {
    CAPTURE(set);
    const Run checked = check(scratch, {"--set", set});
    const Run solved =
        run_thinspot(scratch.path(), {"solve", "case.toml", "--set", set});
    CHECK(checked.status == 2);
    CHECK(checked.out.empty());
    CHECK(checked.err == solved.err);
    CHECK_FALSE(fs::exists(scratch / "case-check.svg"));
  }
  for (const std::vector<std::string>& arguments :
       std::vector<std::vector<std::string>>{
           {"check"},
           {"check", "a.toml", "b.toml"},
           {"check", "nothing.toml"},
           {"check", "case.toml", "--strict"}})
    CHECK(run_thinspot(scratch.path(), arguments).status == 2);
  const Run help = run_thinspot(scratch.path(), {"check", "--help"});
  CHECK(help.status == 0);
  CHECK_THAT(help.out, Contains("thinspot check CASE.toml"));
}

TEST_CASE("check: every shipped case passes and is drawn") {
  const Scratch scratch;
  int count = 0;
  for (const auto& entry :
       fs::directory_iterator(fs::path(THINSPOT_SOURCE) / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    CAPTURE(entry.path().string());
    ++count;
    const std::string drawing = entry.path().stem().string() + ".svg";
    const Run run = run_thinspot(
        scratch.path(), {"check", entry.path().string(), "--out", drawing});
    CHECK(run.status == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, EndsWith("Open " + drawing + "\n"));
    CHECK(lines_of(run.out).size() <= 36);
    CHECK_THAT(content(scratch / drawing), Contains("</svg>"));
  }
  CHECK(count >= 3);
}
