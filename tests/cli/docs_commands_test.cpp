// README.md and docs/*.md: what they tell to type does what they say it does.
// A block marked `sh` holds commands, run in their order in a folder that has
// our cases and the program. A block marked `text` that follows holds what they
// print, stretches of it parted by lines of "…". Of a block marked `toml` or
// `csv` whose paragraph ends in "Add to `FILE`:" or "In `FILE`:" the lines go
// into the file, or make it where there is none.
#include "tests/cli/docs_pages.hpp"
#include "tests/cli/program.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <regex>
#include <set>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A command that is not run here, by how it begins, and why.
struct Left {
  std::string page, begins, why;
};

const std::vector<Left>& left_out() {
  static const std::vector<Left> all{
      {"README.md", "tests/run", "it is what runs this test"},
      {"README.md", "cmake -S", "builds all anew; tests/long/fresh_clone does"},
      {"docs/outputs.md", "thinspot view", "a window; tests/cli/view_test"},
      {"docs/sweep_machines.md", "mpirun",
       "needs machines; tests/cli/sweep_test"
       " runs it on this one"}};
  return all;
}

/// Pages whose commands have a test of their own.
const std::map<std::string, std::string>& tested_elsewhere() {
  static const std::map<std::string, std::string> all{
      {"docs/adding.md", "they build and test what this is a test of"},
      {"docs/installing.md", "tests/long/package"},
      {"docs/sweep.md", "tests/cli/sweep_page_test"},
      {"docs/sweep_machines.md", "the same commands, over many machines"}};
  return all;
}

/// Commands that are shown because the program refuses them.
const std::map<std::string, int>& refused() {
  static const std::map<std::string, int> all{
      {"thinspot check bracket.toml --set supply.curent=\"0.2 A\"", 2}};
  return all;
}

bool is_left_out(const std::string& page, const std::string& command) {
  const auto& all = left_out();
  return std::any_of(all.begin(), all.end(), [&](const Left& left) {
    return left.page == page && command.starts_with(left.begins);
  });
}

/// A folder as a reader of the page has it who has built the program: our
/// cases, and the program where it is built. `cases/run` does there what it
/// does once all is installed and built: it solves.
void furnish(const fs::path& folder) {
  fs::copy(fs::path(THINSPOT_SOURCE) / "cases", folder / "cases",
           fs::copy_options::recursive);
  fs::create_directories(folder / "build/io");
  fs::create_directory_symlink(fs::path(THINSPOT_PROGRAM).parent_path(),
                               folder / "build/io/cli");
  fs::remove(folder / "cases/run");
  put(folder / "cases/run",
      "#!/usr/bin/env bash\n"
      "name=${1:-token_one_sheet}; shift\n"
      "mkdir -p build/cases-out\n"
      "exec build/io/cli/thinspot solve \"cases/$name.toml\" --out "
      "\"build/cases-out/$name\" \"$@\"\n");
  fs::permissions(folder / "cases/run", fs::perms::owner_all);
}

/// Does what a page tells, block by block.
class Reader {
 public:
  explicit Reader(std::string page) : page_(std::move(page)) {
    furnish(scratch_.path());
  }

  void follow(const Block& block) {
    CAPTURE(page_, block.text);
    if (block.kind == "sh") {
      said_.clear();
      for (const std::string& command : commands_of(block)) type(command);
    } else if (block.kind == "text" && !said_.empty()) {
      for (const std::string& stretch : stretches_of(block.text))
        CHECK_THAT(said_, Contains(stretch));
    } else if (block.kind == "toml" || block.kind == "csv") {
      write(block);
    }
  }

 private:
  void type(const std::string& command) {
    if (is_left_out(page_, command)) return;
    if (command.starts_with("export ")) exports_ += command + "\n";
    const Run run =
        shell(scratch_.path(),
              "PATH=\"$(dirname \"$THINSPOT\"):$PATH\"\n" + exports_ + command);
    CAPTURE(command, run.out, run.err);
    const auto meant = refused().find(command);
    CHECK(run.status == (meant == refused().end() ? 0 : meant->second));
    said_ += run.out + run.err;
  }

  void write(const Block& block) {
    std::smatch found;
    const std::regex form("(Add to|[Ii]n) `([^` ]+)`[^`]*:$");
    if (!std::regex_search(block.before, found, form)) return;
    const fs::path file = scratch_ / found[2].str();
    if (!fs::exists(file)) return put(file, block.text);
    const std::string text = content(file);
    put(file, found[1] != "Add to" ? with_keys(text, block.text)
                                   : text + "\n" + block.text);
  }

  std::string page_;
  Scratch scratch_;
  std::string exports_, said_;
};

void check_page(const std::string& page) {
  Reader reader(page);
  for (const Block& block : blocks_of(page_text(page))) reader.follow(block);
}

/// The options that a verb's own help lists, and those of the program.
std::set<std::string> options_of(const std::string& verb) {
  const Scratch scratch;
  const Run run = run_thinspot(scratch.path(), {verb, "--help"});
  CHECK(run.status == 0);
  std::set<std::string> options;
  const std::regex form("--[a-z][a-z-]*");
  for (std::sregex_iterator it(run.out.begin(), run.out.end(), form), end;
       it != end; ++it)
    options.insert(it->str());
  return options;
}

}  // namespace

TEST_CASE("what the tutorial tells to type does what it says", "[docs]") {
  check_page("docs/tutorial.md");
}

TEST_CASE("what the theory shows is what the program prints", "[docs]") {
  check_page("docs/theory.md");
}

TEST_CASE("what all other pages tell to type does what they say", "[docs]") {
  for (const std::string& page : pages())
    if (page != "docs/tutorial.md" && page != "docs/theory.md" &&
        !tested_elsewhere().contains(page))
      check_page(page);
}

TEST_CASE("commands stand between fences, where they are run", "[docs]") {
  const std::regex set_in(
      "^(?:    |\\t) *(?:\\$ )?(?:thinspot|build/io/|cases/|tests/|mpirun|cp |"
      "sudo|apt|cmake|docker).*");
  for (const std::string& page : pages()) {
    if (tested_elsewhere().contains(page)) continue;
    CAPTURE(page);
    for (const std::string& line : prose_of(page_text(page))) {
      CAPTURE(line);
      CHECK_FALSE(std::regex_match(line, set_in));
    }
    const std::set<std::string> known{"sh",  "text", "toml",
                                      "csv", "sql",  "python"};
    for (const Block& block : blocks_of(page_text(page)))
      CHECK(known.contains(block.kind));
  }
}

TEST_CASE("each command that is left out still stands on its page", "[docs]") {
  for (const Left& left : left_out()) {
    CAPTURE(left.page, left.begins);
    CHECK_THAT(page_text(left.page),
               Contains("\n" + left.begins) || Contains("    " + left.begins));
  }
  std::string all;
  for (const std::string& page : pages()) all += page_text(page);
  for (const auto& [command, status] : refused())
    CHECK_THAT(all, Contains("\n" + command + "\n"));
}

namespace {

/// Calls of the program on a page: in backquotes, and in its blocks.
std::vector<std::string> calls_on(const std::string& page) {
  std::string text = page_text(page);
  std::vector<std::string> calls;
  for (const Block& block : blocks_of(text))
    if (block.kind == "sh")
      for (const std::string& line : commands_of(block))
        if (line.starts_with("thinspot ") ||
            line.find("/thinspot ") != std::string::npos)
          calls.push_back(line);
  std::replace(text.begin(), text.end(), '\n', ' ');
  const std::regex quoted("`((?:build/io/cli/)?thinspot [^`]*)`");
  for (std::sregex_iterator it(text.begin(), text.end(), quoted), end;
       it != end; ++it)
    calls.push_back((*it)[1]);
  return calls;
}

}  // namespace

TEST_CASE("verbs and options that pages name are the program's", "[docs]") {
  std::map<std::string, std::set<std::string>> known;
  const std::regex call("thinspot (--)?([a-z]+)(.*)");
  const std::regex option("--[a-z][a-z-]*");
  for (const std::string& page : pages())
    for (const std::string& line : calls_on(page)) {
      CAPTURE(page, line);
      std::smatch found;
      REQUIRE(std::regex_search(line, found, call));
      if (found[1].matched) continue;  // of the program itself
      const std::string verb = found[2], rest = found[3];
      if (!known.contains(verb)) known[verb] = options_of(verb);
      REQUIRE_FALSE(known[verb].empty());
      for (std::sregex_iterator it(rest.begin(), rest.end(), option), end;
           it != end; ++it) {
        CAPTURE(it->str());
        CHECK(known[verb].contains(it->str()));
      }
    }
  CHECK(known.size() >= 9);
}

TEST_CASE("README.md has the example's own figures of its section", "[docs]") {
  const Scratch scratch;
  const Run run = run_thinspot(
      scratch.path(),
      {"solve", THINSPOT_SOURCE "/cases/token_one_sheet.toml", "--out", "out"});
  REQUIRE(run.status == 0);
  const std::string summary = content(scratch / "out/summary.json");
  std::smatch found;
  const std::regex note(
      "thinnest spot about ([0-9]+) % and the heaviest about ([0-9]+) % too "
      "thick, at this Wagner number of ([0-9.]+);");
  REQUIRE(std::regex_search(summary, found, note));
  std::string readme = page_text("README.md");
  std::replace(readme.begin(), readme.end(), '\n', ' ');
  CHECK_THAT(readme,
             Contains("at a Wagner number of " + found[3].str() +
                      ", the   thinnest spot comes out about " +
                      found[1].str() + " % too thick and the heaviest about " +
                      found[2].str() + " %."));
}
