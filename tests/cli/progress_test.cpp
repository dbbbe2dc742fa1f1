// The bar of long work, on a terminal of the test's own.
#include "tests/cli/program.hpp"
#include "tests/cli/pseudo_terminal.hpp"
#include "tests/cli/shipped_cases.hpp"
#include "tests/scratch.hpp"

#include <catch2/catch.hpp>

#include <csignal>
#include <string>

using namespace thinspot::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// Some seconds of work; on the fastest of machines a good part of one.
std::string slow(const std::string& more = "") {
  return "exec \"$THINSPOT\" solve \"" + shipped_case("rack_of_six").string() +
         "\" --tolerance '0.02 %' --out out " + more;
}

bool has_bar(const std::string& bytes) {
  return bytes.find("\x1b[J") != std::string::npos ||
         bytes.find(" %  ") != std::string::npos;
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t n = 0;
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + 1))
    ++n;
  return n;
}

/// Without what says how long it took.
std::vector<std::string> told(std::vector<std::string> lines) {
  std::erase_if(lines, [](const std::string& line) {
    return line.find("took ") != std::string::npos;
  });
  return lines;
}

}  // namespace

TEST_CASE("a bar on a terminal, and nothing of it afterwards") {
  const Scratch scratch;
  const Shown shown = run_on_terminal(scratch.path(), slow());
  CHECK(shown.status == 0);
  CHECK_THAT(shown.bytes, Contains(" %  "));
  CHECK_THAT(shown.bytes, Contains("error bars"));
  CHECK_THAT(shown.bytes, Contains(" left"));
  CHECK_THAT(shown.bytes, Contains("\x1b[36m#"));
  CHECK_THAT(shown.bytes, !Contains("\x1b[?"));  // the cursor stays
  std::size_t widest = 0;
  const auto left = screen_of(shown.bytes, &widest);
  CHECK(widest <= 80);

  const Run piped = shell(scratch.path(), slow());
  CHECK(piped.err.empty());
  CHECK(told(left) == told(lines_of(piped.out)));
}

TEST_CASE("no bar where standard error is a pipe or a file, or on demand") {
  const Scratch scratch;
  const Shown piped =
      run_on_terminal(scratch.path(), slow("2>&1 >/dev/null | cat >err"));
  CHECK(content(scratch / "err").empty());
  CHECK(piped.bytes.empty());
  const Shown file = run_on_terminal(scratch.path(), slow("2>err"));
  CHECK(file.status == 0);
  CHECK(content(scratch / "err").empty());
  CHECK_FALSE(has_bar(file.bytes));
  const Shown quiet = run_on_terminal(scratch.path(), slow("--quiet"));
  CHECK(quiet.status == 0);
  CHECK(quiet.bytes.empty());
  // Standard output in a pipe: the bar is seen all the same.
  const Shown other = run_on_terminal(scratch.path(), slow(">told"));
  CHECK(has_bar(other.bytes));
  CHECK(screen_of(other.bytes).empty());
  CHECK_FALSE(has_bar(content(scratch / "told")));
}

TEST_CASE("NO_COLOR leaves the bar plain, a dumb terminal has none") {
  const Scratch scratch;
  OnTerminal how;
  how.environment = {"NO_COLOR=1"};
  const Shown plain = run_on_terminal(scratch.path(), slow(), how);
  CHECK_THAT(plain.bytes, Contains("#") && Contains(" %  "));
  CHECK(count(plain.bytes, "\x1b") == count(plain.bytes, "\x1b[J"));
  how = {};
  how.type = "dumb";
  const Shown dumb = run_on_terminal(scratch.path(), slow(), how);
  CHECK(dumb.status == 0);
  CHECK_FALSE(has_bar(dumb.bytes));
  CHECK(count(dumb.bytes, "\x1b") == 0);
}

TEST_CASE("a narrow terminal has a bar that does not wrap") {
  const Scratch scratch;
  for (const int columns : {10, 30}) {
    OnTerminal how;
    how.columns = columns;
    const Shown shown =
        run_on_terminal(scratch.path(), slow(">/dev/null"), how);
    std::size_t widest = 0;
    CHECK(screen_of(shown.bytes, &widest).empty());
    CHECK_THAT(shown.bytes, Contains(" %"));
    CHECK(widest < static_cast<std::size_t>(columns));
  }
}

TEST_CASE("the bar is gone before an error is told") {
  const Scratch scratch;
  // Where the folder is to be made a file stands when all is computed.
  OnTerminal how;
  how.waits_for = " %  ";
  how.typed = [&] {
    put(scratch / "out", "");
    return "";
  };
  const Shown shown = run_on_terminal(scratch.path(), slow(), how);
  INFO(shown.bytes);
  CHECK(shown.status == 3);
  CHECK(has_bar(shown.bytes));
  const auto left = screen_of(shown.bytes);
  REQUIRE(!left.empty());
  CHECK_THAT(left.front(), StartsWith("out"));
  for (const std::string& line : left) CHECK_THAT(line, !Contains(" left"));
}

TEST_CASE("Ctrl-C and Ctrl-Z leave a clean line") {
  const Scratch scratch;
  OnTerminal how;
  how.waits_for = " %  ";
  how.typed = [] { return "\x03"; };
  const Shown ended = run_on_terminal(scratch.path(), slow(), how);
  CHECK(ended.status == 128 + SIGINT);
  CHECK(screen_of(ended.bytes).empty());
  CHECK_FALSE(std::filesystem::exists(scratch / "out" / "summary.json"));
  // With a shell around it that lets it go on.
  how.typed = [] { return "\x1a"; };
  const Shown stopped = run_on_terminal(
      scratch.path(),
      "set -m; (" + slow(">/dev/null") + "); echo; fg >/dev/null", how);
  CHECK(stopped.status == 0);
  CHECK_THAT(stopped.bytes, Contains("^Z"));
  for (const std::string& line : screen_of(stopped.bytes)) {
    CAPTURE(line);
    CHECK_FALSE(has_bar(line));
  }
  CHECK(std::filesystem::exists(scratch / "out" / "summary.json"));
}

TEST_CASE("ten lines a second at most, and none at once") {
  // A hundred reports and more.
  const Scratch scratch;
  const Shown shown = run_on_terminal(
      scratch.path(), "exec \"$THINSPOT\" solve \"" +
                          shipped_case("token_on_motor").string() +
                          "\" --tolerance '0.003 %' --out out >/dev/null");
  CHECK(shown.status == 0);
  const auto drawn = static_cast<double>(count(shown.bytes, " %  "));
  CHECK(drawn >= 1);
  CHECK(drawn <= 10 * (shown.seconds - 0.4) + 1);
}

TEST_CASE("work that is soon done shows nothing") {
  const Scratch scratch;
  put(scratch / "token.toml", sound_case());
  // On a busy machine it is not soon done: then once more.
  for (int again = 0; again < 20; ++again) {
    const Shown shown = run_on_terminal(
        scratch.path(), "exec \"$THINSPOT\" solve token.toml >/dev/null");
    CHECK(shown.status == 0);
    if (shown.seconds > 0.4) continue;
    CHECK(shown.bytes.empty());
    return;
  }
  WARN("no run was done in 0.4 s");
}
