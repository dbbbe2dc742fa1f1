#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// As its help lists them below the options, one a line.
std::vector<std::string> shapes() {
  const Scratch scratch;
  const std::string help = run_thinspot(scratch.path(), {"new", "--help"}).out;
  std::vector<std::string> names;
  const std::size_t list = help.find("\n\n  coin ");
  REQUIRE(list != std::string::npos);
  for (const std::string& line : lines_of(help.substr(list)))
    if (line.starts_with("  "))
      names.push_back(line.substr(2, line.find(' ', 2) - 2));
  REQUIRE(names.size() >= 8);
  CHECK(names.back() == "outline");
  return names;
}

std::size_t files_in(const Scratch& folder) {
  return static_cast<std::size_t>(
      std::distance(std::filesystem::directory_iterator(folder.path()), {}));
}

/// One line on standard error, nothing written.
std::string complaint(const std::vector<std::string>& words, int status = 2) {
  const Scratch scratch;
  std::vector<std::string> arguments = words;
  arguments.insert(arguments.begin(), "new");
  const Run run = run_thinspot(scratch.path(), arguments);
  CAPTURE(run.err);
  CHECK(run.status == status);
  CHECK(run.out.empty());
  CHECK(lines_of(run.err).size() == 1);
  CHECK(files_in(scratch) == 0);
  return run.err;
}

/// The lines of a text that are commands to type, as bash runs them.
std::vector<std::string> commands_in(const std::string& text) {
  std::vector<std::string> commands;
  for (const std::string& line : lines_of(text))
    if (line.starts_with("  thinspot "))
      commands.push_back("\"$THINSPOT\"" + line.substr(10));
  return commands;
}

}  // namespace

TEST_CASE("every starter solves as it is, at the current that it sets") {
  for (const std::string& shape : shapes()) {
    const Scratch scratch;
    CAPTURE(shape);
    REQUIRE(run_thinspot(scratch.path(), {"new", shape}).status == 0);
    const Run run = run_thinspot(scratch.path(), {"solve", shape + ".toml"});
    CAPTURE(run.err);
    REQUIRE(run.status == 0);
    CHECK(run.err.empty());
    CHECK_THAT(run.out, Contains("\nTarget "));
    const auto summary = nlohmann::json::parse(
        content(scratch / (shape + "-out") / "summary.json"));
    // 2 A/dm2 are meant; the current is given with two digits, so to 5 %.
    const double mean = summary["part"]["current_density_A_dm2"]["mean"];
    CHECK(mean == Approx(2).epsilon(0.05));
    // 10 um in place of the 17.7 um that 2 A/dm2 make of copper in 40 min
    // (Faraday's law): within reach everywhere but in the depth of a recess.
    CHECK(summary["target"]["time_needed_min"].is_number());
    CHECK(summary["cell"]["limited_by"] == "current");
  }
}

TEST_CASE("from nothing to a picture by what the program prints") {
  for (const std::string name : {"", "my own spoon.toml", "it's.toml"}) {
    const Scratch scratch;
    std::vector<std::string> arguments{"new", "spoon"};
    if (!name.empty()) arguments.push_back(name);
    const Run made = run_thinspot(scratch.path(), arguments);
    CAPTURE(made.out, made.err);
    REQUIRE(made.status == 0);
    const auto commands = commands_in(made.out);
    REQUIRE(commands.size() == 2);
    for (const std::string& command : commands) {
      const Run run = shell(scratch.path(), command);
      CAPTURE(command, run.out, run.err);
      CHECK(run.status == 0);
    }
    const std::size_t from = made.out.find("Then open ") + 10;
    const std::string page =
        made.out.substr(from, made.out.find(" in a browser") - from);
    CHECK(std::filesystem::is_regular_file(scratch / page));
    for (const std::string& line : lines_of(made.out)) CHECK(line.size() <= 80);
  }
}

TEST_CASE("nothing is overwritten") {
  const Scratch scratch;
  put(scratch / "spoon.toml", "mine");
  const Run run = run_thinspot(scratch.path(), {"new", "spoon"});
  CHECK(run.status == 2);
  CHECK(content(scratch / "spoon.toml") == "mine");
  CHECK(run.err ==
        "spoon.toml: is there already, and nothing is overwritten; write: "
        "thinspot new spoon spoon-2.toml\n");
  CHECK(shell(scratch.path(), "\"$THINSPOT\" new spoon spoon-2.toml").status ==
        0);
  CHECK_THAT(run_thinspot(scratch.path(), {"new", "spoon"}).err,
             Contains("spoon-3.toml"));

  // Neither through a link that leads nowhere, nor a drawing.
  std::filesystem::create_symlink("elsewhere", scratch / "rod.toml");
  CHECK(run_thinspot(scratch.path(), {"new", "rod"}).status == 2);
  CHECK_FALSE(std::filesystem::exists(scratch / "elsewhere"));
  put(scratch / "outline.csv", "mine");
  const Run drawing = run_thinspot(scratch.path(), {"new", "outline"});
  CHECK(drawing.status == 2);
  CHECK_THAT(drawing.err, StartsWith("outline.csv: is there already"));
  CHECK(content(scratch / "outline.csv") == "mine");
  CHECK_FALSE(std::filesystem::exists(scratch / "outline.toml"));
}

TEST_CASE("a dash prints the case, a folder takes it") {
  const Scratch scratch;
  const Run printed = run_thinspot(scratch.path(), {"new", "bracket", "-"});
  CHECK(printed.status == 0);
  CHECK(files_in(scratch) == 0);
  std::filesystem::create_directory(scratch / "sub");
  CHECK(run_thinspot(scratch.path(), {"new", "bracket", "sub"}).status == 0);
  CHECK(content(scratch / "sub" / "bracket.toml") == printed.out);
  CHECK_THAT(complaint({"outline", "-"}), StartsWith("-: "));
}

TEST_CASE("a wrong word gets one line that helps") {
  CHECK_THAT(complaint({}), Contains("coin, spoon, bracket"));
  CHECK_THAT(complaint({"spon"}), Contains("nearest: spoon"));
  const std::vector<std::string> all = shapes();
  std::string names = all.front();
  for (std::size_t k = 1; k < all.size(); ++k)
    names += (k + 1 < all.size() ? ", " : " or ") + all[k];
  CHECK_THAT(complaint({"teapot"}), Contains("it takes " + names));
  CHECK_THAT(complaint({"spoon", "a.toml", "b.toml"}), StartsWith("b.toml: "));
  CHECK_THAT(complaint({"spoon", ""}), Contains("cannot be the name"));
  CHECK_THAT(complaint({"spoon", "a\nb.toml"}), Contains("cannot be the name"));
  CHECK_THAT(complaint({"outline", "a\"b.toml"}),
             Contains("cannot be the name"));
  CHECK_THAT(complaint({"outline", "a.csv"}), Contains("ends in .toml"));
  CHECK_THAT(complaint({"spoon", "--force"}), StartsWith("--force: "));
  CHECK_THAT(complaint({"spoon", "none/a.toml"}, 3), Contains("No such file"));
  const Scratch scratch;
  const Run help = run_thinspot(scratch.path(), {"new", "--help"});
  CHECK(help.status == 0);
  for (const std::string& shape : shapes())
    CHECK_THAT(help.out, Contains("\n  " + shape + " "));
}

TEST_CASE("what cannot be written whole leaves nothing") {
  const Scratch scratch;
  // No file may grow, as on a full disk; the signal is ignored.
  const Run run = shell(scratch.path(),
                        "(trap '' XFSZ; ulimit -f 0; "
                        "\"$THINSPOT\" new outline 2>&1 >/dev/null) | cat");
  CHECK_THAT(run.out, StartsWith("outline.toml: cannot write it"));
  CHECK(files_in(scratch) == 0);
}
