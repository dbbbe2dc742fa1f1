// Odd environments, odd files, odd names, and too little of everything.
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
namespace fs = std::filesystem;

namespace {

const char* const kSolve = "\"$THINSPOT\" solve case.toml --quiet ";

/// What the run took is no result.
std::string without_times(const fs::path& summary) {
  std::string text;
  for (const std::string& line : lines_of(content(summary)))
    if (!Contains("\"mesh\": 0.").match(line) &&
        !Contains("\"solve\": ").match(line) &&
        !Contains("\"total\": ").match(line))
      text += line + "\n";
  return text;
}

}  // namespace

TEST_CASE("results do not depend on the environment") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  REQUIRE(shell(scratch.path(), std::string(kSolve) + "--out a").status == 0);
  const std::string expected = without_times(scratch / "a/summary.json");
  const std::string table = content(scratch / "a/surface.csv");
  shell(scratch.path(),
        "mkdir loc; localedef -i de_DE -f UTF-8 loc/de_DE.UTF-8 2>/dev/null");
  const std::string comma = "LOCPATH=$PWD/loc LC_ALL=de_DE.UTF-8 ";
  if (shell(scratch.path(), comma + "bash -c 'printf %.1f 1,5'").out != "1,5")
    WARN("skipped: no locale with a decimal comma can be made here");
  for (const std::string& odd :
       {comma, std::string("LC_ALL=no_SUCH.locale "),
        std::string("TZ=:/dev/zero "), std::string("TZ=Mars/Olympus+99 "),
        std::string("env -i "), std::string("env -u HOME -u TERM "),
        std::string("env HOME=/nonexistent TERM=$'\\x1b[2J' COLUMNS=-1 ")}) {
    CAPTURE(odd);
    const Run run = shell(scratch.path(), odd + kSolve + "--out a");
    CAPTURE(run.err);
    CHECK(run.status == 0);
    CHECK(without_times(scratch / "a/summary.json") == expected);
    CHECK(content(scratch / "a/surface.csv") == table);
  }
}

TEST_CASE("streams that are closed, broken or full, of each verb") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  for (const std::string run :
       {"solve case.toml", "check case.toml", "plan case.toml",
        "bath case.toml", "--help", "--version"}) {
    CAPTURE(run);
    const std::string line = "\"$THINSPOT\" " + run;
    CHECK(shell(scratch.path(), line + " <&- >&- 2>&-").status == 0);
    const Run full = shell(scratch.path(), line + " >/dev/full");
    CHECK(full.status == 3);
    CHECK(lines_of(full.err).size() == 1);
    // `sleep 0` reads nothing: the pipe is broken for sure.
    const Run broken =
        shell(scratch.path(), "set -o pipefail; " + line + " | sleep 0");
    CHECK(broken.status == 0);
    CHECK(broken.err.empty());
  }
  CHECK(
      shell(scratch.path(), "\"$THINSPOT\" solve no.toml 2>/dev/full").status ==
      2);
}

TEST_CASE("devices, pipes, loops and folders are no input") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  REQUIRE(shell(scratch.path(), std::string(kSolve) +
                                    "--out a && mkfifo p && "
                                    "ln -s loop loop && ln -s /dev/zero zero")
              .status == 0);
  for (const std::string what :
       {"p", "loop", "/dev/zero", "/dev/random", "zero", ".", "/proc/kmsg"})
    for (const std::string before :
         {"solve ", "check ", "plan ", "bath ", "view ", "fit case.toml ",
          "compare a ", "sweep --vary supply.current=\"1 A,2 A\" "}) {
      if (before == "compare a " && what == ".") continue;
      CAPTURE(before, what);
      const Run run =
          shell(scratch.path(), "timeout 10 \"$THINSPOT\" " + before + what);
      CAPTURE(run.err);
      CHECK(run.status == 2);
      CHECK(run.out.empty());
      CHECK(lines_of(run.err).size() == 1);
    }
  for (const std::string run :
       {"solve case.toml --out p", "solve case.toml --out loop",
        "solve case.toml --out case.toml", "check case.toml --out p",
        "check case.toml --out loop", "check case.toml --out /dev/full"}) {
    CAPTURE(run);
    const Run refused =
        shell(scratch.path(), "timeout 10 \"$THINSPOT\" " + run);
    CHECK(refused.status == 3);
    CHECK(lines_of(refused.err).size() == 1);
  }
  CHECK(content(scratch / "case.toml") == sound_case());
}

TEST_CASE("drawings that are devices, pipes or loops are refused at once") {
  const Scratch scratch;
  put(scratch / "case.toml",
      edited("shape = \"coin\"\ndiameter = \"30 mm\"\nthickness = \"2.4 mm\"\n"
             "edge_radius = \"0.3 mm\"",
             "shape = \"outline\"\nfile = \"p.csv\"\narea = \"20 cm2\""));
  for (const std::string make :
       {"mkfifo p.csv", "ln -s p.csv p.csv", "mkdir p.csv", "touch p.csv",
        "ln -s /dev/zero p.csv", "truncate -s 30M p.csv"})
    for (const std::string verb :
         {"solve case.toml", "sweep case.toml --vary part.file=p.csv,p.csv"}) {
      CAPTURE(make, verb);
      const Run run =
          shell(scratch.path(),
                "rm -rf p.csv; " + make + "; timeout 10 \"$THINSPOT\" " + verb);
      CAPTURE(run.err);
      CHECK(run.status == 2);
      CHECK(lines_of(run.err).size() == 1);
      CHECK_THAT(run.err, Contains("part.file"));
    }
}

TEST_CASE("odd and long names") {
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  for (const std::string name : {"$'new\\nline'", "\"q'u\\\"o<b>&amp;\"",
                                 "$'bad\\xff\\xfe'", "'-- x'"}) {
    CAPTURE(name);
    for (const std::string verb : {"solve", "plan", "check"}) {
      const Run run = shell(scratch.path(), "n=" + name +
                                                "; cp case.toml \"./$n.toml\"; "
                                                "\"$THINSPOT\" " +
                                                verb + " \"./$n.toml\"");
      CAPTURE(verb, run.err);
      CHECK(run.status == 0);
      CHECK(run.err.empty());
    }
    const Run wrong =
        shell(scratch.path(), "n=" + name +
                                  "; \"$THINSPOT\" solve "
                                  "\"./$n.toml\" --set part.at=1;"
                                  "\"$THINSPOT\" solve ./no\"$n\"");
    CHECK(wrong.status == 2);
    CHECK(lines_of(wrong.err).size() == 2);
  }
  for (const std::string n : {"300", "9000"}) {
    const std::string name = "\"$(printf '%0" + n + "d' 1)\"";
    CHECK(shell(scratch.path(), "\"$THINSPOT\" solve " + name).status == 2);
    CHECK(shell(scratch.path(), std::string(kSolve) + "--out " + name).status ==
          3);
  }
}

TEST_CASE("a current folder that is gone") {
  const Scratch scratch;
  put(scratch / "case.toml", sound_case());
  const std::string gone = "mkdir g; cd g; rmdir ../g; \"$THINSPOT\" ";
  const std::string file = (scratch / "case.toml").string();
  const Run lost = shell(scratch.path(), gone + "solve case.toml");
  CHECK(lost.status == 2);
  CHECK(lines_of(lost.err).size() == 1);
  CHECK(shell(scratch.path(), gone + "solve " + file).status == 0);
  CHECK(shell(scratch.path(), gone + "solve " + file + " --out o").status == 3);
  CHECK(shell(scratch.path(), gone + "check " + file + " --out c.svg").status ==
        3);
}

TEST_CASE("few files, few processes, little memory: one line, no crash") {
  if (sanitized()) {
    WARN("skipped: sanitizers take more of all three than there would be");
    return;
  }
  const Scratch scratch;
  put(scratch / "case.toml", quick_to_plan());
  // The superuser may start as many as he likes.
  for (const std::string verb : {"solve", "plan"}) {
    const Run run =
        shell(scratch.path(),
              "chmod 777 .; u=$(id -u); [[ $u = 0 ]] && "
              "as='setpriv --reuid=43210 --clear-groups'; ulimit -u 1; $as "
              "\"$THINSPOT\" " +
                  verb + " case.toml --quiet --out few");
    CAPTURE(verb, run.err);
    if (run.status == 126 || run.status == 127 ||
        Contains("setpriv").match(run.err)) {
      WARN("skipped: no other user can be had here");
      continue;
    }
    CHECK(run.status == 4);
    CHECK(lines_of(run.err).size() == 1);
    CHECK_THAT(run.err, Contains("could not be started"));
  }
  CHECK(shell(scratch.path(), std::string("ulimit -n 8; ") + kSolve).status ==
        0);
  for (const char* few : {"5", "6", "7"}) {
    const Run run =
        shell(scratch.path(), std::string("ulimit -n ") + few + "; " + kSolve);
    CAPTURE(few, run.err);
    CHECK((run.status == 0 || run.status == 3 || run.status == 4));
    CHECK(lines_of(run.err).size() <= 1);
  }
  int short_of = 0;
  for (int mb = 30; mb <= 160; mb += 5) {
    const Run run =
        shell(scratch.path(),
              "ulimit -v " + std::to_string(1000 * mb) + "; " + kSolve);
    CAPTURE(mb, run.err);
    // Below what the libraries take, the loader gives up with 127.
    CHECK((run.status == 0 || run.status == 3 || run.status == 4 ||
           run.status == 127));
    short_of += run.status == 4;
    if (run.status == 4) CHECK_THAT(run.err, Contains("no result: "));
    CHECK(lines_of(run.err).size() <= 10);
  }
  CHECK(short_of > 0);
}
