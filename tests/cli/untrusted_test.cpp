// A case from somebody else: it reads and writes nowhere but in its own folder
// and the output folder, runs nothing, and is refused in few words.
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <set>
#include <string>
#include <vector>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

const char* const kStrip = "x,y\n0,0\n3,0\n3,30\n0,30\n";

std::string drawn(const std::string& file) {
  return edited(
      "shape = \"coin\"\ndiameter = \"30 mm\"\nthickness = \"2.4 mm\"\n"
      "edge_radius = \"0.3 mm\"",
      "shape = \"outline\"\nfile = \"" + file +
          "\"\nunit = \"mm\"\narea = \"20 cm2\"");
}

std::string repeated(const std::string& piece, int times) {
  std::string all;
  for (int k = 0; k < times; ++k) all += piece;
  return all;
}

}  // namespace

TEST_CASE("no table of a case reads a drawing outside its folder") {
  const Scratch scratch;
  fs::create_directory(scratch / "case");
  put(scratch / "strip.csv", kStrip);
  fs::create_symlink("../strip.csv", scratch / "case/link.csv");
  fs::create_directory_symlink("..", scratch / "case/up");
  const std::string whole = (scratch / "strip.csv").string();
  for (const std::string& file :
       {whole, std::string("../strip.csv"), std::string("x/../../strip.csv"),
        std::string("link.csv"), std::string("up/strip.csv")}) {
    const std::string place =
        "shape = \"outline\"\nfile = \"" + file +
        "\"\nunit = \"mm\"\nat = [\"70 mm\", \"50 mm\"]\n";
    std::vector<std::string> texts{drawn(file)};
    for (const char* table : {"shield", "thief", "anode", "floating", "clip"})
      texts.push_back(sound_case() + "[[" + table + "]]\n" + place);
    texts.push_back(
        edited("shape = \"box\"\nwidth = \"90 mm\"\n"
               "height = \"120 mm\"",
               "shape = \"outline\"\nfile = \"" + file + "\""));
    for (const std::string& text : texts) {
      put(scratch / "case/case.toml", text);
      for (const std::string verb : {"check", "bath"}) {
        const Run run = run_thinspot(scratch / "case", {verb, "case.toml"});
        CAPTURE(file, text, run.err);
        CHECK(run.status == 2);
        CHECK(lines_of(run.err).size() <= 2);
        CHECK_THAT(run.err, Contains("put the drawing beside the case file, "
                                     "or name it with --set "));
      }
    }
  }
  CHECK(names_in(scratch / "case") ==
        std::set<std::string>{"case.toml", "link.csv", "up"});
}

TEST_CASE("a drawing named on the command line may lie anywhere") {
  const Scratch scratch;
  fs::create_directory(scratch / "case");
  put(scratch / "strip.csv", kStrip);
  put(scratch / "case/case.toml",
      drawn("absent.csv") +
          "\n[plan]\nmax_turns = 0\nmax_anodes = 1\n"
          "vary = { \"supply.current\" = \"0.2 A .. 0.4 A\" }\n");
  const std::string set = "part.file=" + (scratch / "strip.csv").string();
  for (const std::string verb : {"solve", "check", "plan"}) {
    const Run run =
        run_thinspot(scratch / "case", {verb, "case.toml", "--set", set});
    CAPTURE(verb, run.err);
    CHECK(run.status == 0);
  }
  const Run vary = run_thinspot(
      scratch / "case",
      {"sweep", "case.toml", "--vary", set + ",../strip.csv", "--quiet"});
  CAPTURE(vary.err);
  CHECK(vary.status == 0);
  // What was planned stands with its drawing, and needs no --set.
  CHECK(content(scratch / "case/case-plan/strip.csv") == kStrip);
  CHECK(run_thinspot(scratch / "case/case-plan", {"solve", "planned.toml"})
            .status == 0);
}

TEST_CASE("links in an output folder lead nowhere") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  put(scratch / "victim", "precious");
  fs::create_directory(scratch / "case-out");
  // As it came with the case: the marker, and links in place of files.
  fs::create_symlink("../victim", scratch / "case-out/.thinspot");
  const Run refused = run_thinspot(scratch.path(), {"solve", "case.toml"});
  CHECK(refused.status == 3);
  CHECK(lines_of(refused.err).size() == 1);
  CHECK_THAT(refused.err, Contains("no plain file"));
  fs::remove(scratch / "case-out/.thinspot");
  put(scratch / "case-out/.thinspot", "");
  for (const char* name : {"summary.json", "report.html", ".report.html.tmp",
                           ".surface.csv.tmp", "why.svg"})
    fs::create_symlink("../victim", scratch / "case-out" / name);
  CHECK(shell(scratch.path(),
              "mkfifo case-out/.card.svg.tmp; timeout 20 "
              "\"$THINSPOT\" solve case.toml --quiet")
            .status == 0);
  CHECK(fs::symlink_status(scratch / "case-out/report.html").type() ==
        fs::file_type::regular);

  fs::create_directory(scratch / "case-sweep");
  put(scratch / "case-sweep/.thinspot", "");
  fs::create_symlink("../made", scratch / "case-sweep/sweep.sqlite");
  const Run sweep = run_thinspot(
      scratch.path(),
      {"sweep", "case.toml", "--vary", "supply.current=0.1 A,0.2 A"});
  CHECK(sweep.status == 3);
  CHECK_THAT(sweep.err, Contains("no plain file"));
  CHECK_FALSE(fs::exists(scratch / "made"));
  CHECK(content(scratch / "victim") == "precious");
}

TEST_CASE("nothing in a case is run, nor taken for a format or an option") {
  const Scratch scratch;
  std::string text = edited(
      "\"a token\"", "\"$(touch ran) `touch ran` ; touch ran | {0} %n%s {}\"");
  text.replace(text.find("\"sheet\""), 7, "\"s;touch ran\"");
  put(scratch / "case.toml", text);
  put(scratch / "-quiet.toml", text);
  for (const std::string verb : {"solve", "check", "sweep"}) {
    std::vector<std::string> run{verb, "case.toml"};
    if (verb == "sweep") {
      run.push_back("--vary");
      run.push_back("supply.current=0.1 A,0.2 A");
    }
    const Run ended = run_thinspot(scratch.path(), run);
    CAPTURE(verb, ended.err);
    CHECK((ended.status == 0 || ended.status == 2));
    CHECK(lines_of(ended.err).size() <= 10);
  }
  CHECK_FALSE(fs::exists(scratch / "ran"));
}

TEST_CASE("kept folders of somebody else are read by name, not by list") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  REQUIRE(run_thinspot(scratch.path(), {"solve", "case.toml", "--out", "a"})
              .status == 0);
  std::string summary = content(scratch / "a/summary.json");
  const std::size_t at = summary.find("\"name\": \"card.svg\"");
  REQUIRE(at != std::string::npos);
  summary.replace(at, 18, "\"name\": \"/dev/zero\"");
  fs::copy(scratch / "a", scratch / "b");
  put(scratch / "b/summary.json", summary);
  CHECK(shell(scratch.path(),
              "timeout 20 \"$THINSPOT\" compare a b --quiet --out c")
            .status == 0);
  for (const std::string make :
       {"ln -sf /dev/zero b/surface.csv", "mkfifo b/surface.csv",
        "ln -sf surface.csv b/surface.csv",
        "yes '[' | head -c 7000000 | "
        "tr -d '\\n' > b/summary.json"}) {
    const Run run =
        shell(scratch.path(), "rm -f b/surface.csv; " + make +
                                  "; timeout 20 \"$THINSPOT\" compare a b");
    CAPTURE(make, run.err);
    CHECK(run.status == 2);
    CHECK(lines_of(run.err).size() == 1);
  }
}

TEST_CASE("cases out of all measure end soon and in few lines") {
  const Scratch scratch;
  const std::string long_key(999'000, 'k');
  std::string dotted = "a";
  for (int k = 0; k < 100'000; ++k) dotted += ".a";
  for (const std::string& text :
       {long_key + " = 1\n", "[part]\n" + long_key + " = 1\n",
        "[" + long_key + "]\n", sound_case() + repeated("[[anode]]\n", 10'000),
        "a = " + repeated("[", 400'000), "a = " + repeated("{a=", 300'000),
        dotted + " = 1\n", "[" + dotted + "]\n",
        "a = \"\"\"" + repeated("\n", 900'000), repeated("[[a.b]]\n", 99'000),
        sound_case() +
            repeated("[[probe]]\nat = [\"1 mm\", \"1 mm\"]\n", 10'000)}) {
    put(scratch / "case.toml", text);
    for (const std::string verb : {"solve", "plan", "bath"}) {
      const Run run =
          shell(scratch.path(),
                (sanitized() ? "" : "ulimit -v 4000000; timeout 20 ") +
                    std::string("\"$THINSPOT\" ") + verb + " case.toml");
      CAPTURE(verb, text.substr(0, 40), run.status);
      CHECK(run.status == 2);
      CHECK(run.out.empty());
      CHECK(lines_of(run.err).size() <= 11);
      CHECK(run.err.size() < 6000);
    }
  }
  CHECK(names_in(scratch.path()) == std::set<std::string>{"case.toml"});
}
