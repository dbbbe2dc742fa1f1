#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;

namespace {

std::string printed(const std::vector<std::string>& arguments) {
  const Scratch scratch;
  const Run run = run_thinspot(scratch.path(), arguments);
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  return run.out;
}

std::vector<std::string> verbs() {
  std::vector<std::string> names;
  for (const std::string& line : lines_of(printed({"--help"})))
    if (line.starts_with("  thinspot ") && line[11] != '-')
      names.push_back(line.substr(11, line.find(' ', 11) - 11));
  REQUIRE(names.size() >= 9);
  return names;
}

/// "--out" and so on, as a verb's help lists them.
std::vector<std::string> options(const std::string& verb) {
  std::vector<std::string> names;
  for (const std::string& line : lines_of(printed({verb, "--help"})))
    if (line.starts_with("  --"))
      names.push_back(line.substr(2, line.find(' ', 2) - 2));
  REQUIRE_FALSE(names.empty());
  return names;
}

/// What bash offers for the last of these words, in a folder.
std::set<std::string> offered(const Scratch& folder, const std::string& words) {
  const Run run = shell(
      folder.path(),
      "source <(\"$THINSPOT\" --completion); compopt() { :; }; COMP_WORDS=(" +
          words +
          "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _thinspot; "
          "printf '%s\\n' \"${COMPREPLY[@]}\"");
  CAPTURE(words, run.err);
  CHECK(run.status == 0);
  CHECK(run.err.empty());
  std::set<std::string> all;
  for (const std::string& line : lines_of(run.out))
    if (!line.empty()) all.insert(line);
  return all;
}

}  // namespace

TEST_CASE("the manual page has every verb and option, in sound roff") {
  const std::string page = printed({"--manual"});
  CHECK_THAT(page, Contains(".TH THINSPOT 1"));
  for (const std::string& verb : verbs()) {
    CAPTURE(verb);
    const std::size_t begin = page.find("\n.SS thinspot " + verb + "\n");
    REQUIRE(begin != std::string::npos);
    const std::string section =
        page.substr(begin, page.find("\n.S", begin + 2) - begin);
    for (const std::string& option : options(verb)) {
      std::string shown = "\\fB";
      for (char c : option) shown += c == '-' ? "\\-" : std::string(1, c);
      CHECK_THAT(section, Contains(shown + "\\fR"));
    }
  }
  const std::set<std::string> requests{".TH", ".SH", ".SS", ".TP",
                                       ".HP", ".PP", ".nf", ".fi"};
  for (const std::string& line : lines_of(page)) {
    CAPTURE(line);
    CHECK_FALSE(line.starts_with("'"));
    if (line.starts_with(".")) CHECK(requests.contains(line.substr(0, 3)));
  }
  // As it is set by the system's own program, where there is one.
  const Scratch scratch;
  const Run set = shell(scratch.path(),
                        "\"$THINSPOT\" --manual > t.1; command -v groff "
                        ">/dev/null || exit 0; groff -ww -man -Tascii t.1");
  CHECK(set.status == 0);
  CHECK(set.err.empty());
}

TEST_CASE("bash completes verbs, options, shapes and files") {
  const Scratch scratch;
  CHECK(shell(scratch.path(), "touch a.toml b.csv; mkdir 'a folder' ab-out")
            .status == 0);
  const std::set<std::string> all = offered(scratch, "thinspot ''");
  for (const std::string& verb : verbs()) {
    CHECK(all.contains(verb));
    const std::set<std::string> flags =
        offered(scratch, "thinspot " + verb + " --");
    const std::vector<std::string> listed = options(verb);
    CHECK(flags == std::set<std::string>(listed.begin(), listed.end()));
  }
  using Words = std::set<std::string>;
  CHECK(offered(scratch, "thinspot so") == Words{"solve"});
  CHECK(offered(scratch, "thinspot new co") == Words{"coin"});
  CHECK(offered(scratch, "thinspot solve ''") ==
        Words{"a.toml", "a folder", "ab-out"});
  CHECK(offered(scratch, "thinspot solve a.toml --out a") ==
        Words{"a folder", "ab-out"});
  CHECK(offered(scratch, "thinspot solve a.toml --set ''").empty());
  CHECK(offered(scratch, "thinspot fit a.toml b") == Words{"b.csv"});
  CHECK(offered(scratch, "thinspot compare ab-out b") == Words{"b.csv"});
}
