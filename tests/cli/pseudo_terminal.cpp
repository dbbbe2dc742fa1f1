#include "tests/cli/pseudo_terminal.hpp"

#include <catch2/catch.hpp>

#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>

namespace thinspot::tests {

namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::seconds kLongest(120);

[[noreturn]] void be_the_child(const std::filesystem::path& folder,
                               const std::string& line, const OnTerminal& how) {
  if (::chdir(folder.c_str()) != 0) ::_exit(126);
  ::setenv("THINSPOT", THINSPOT_PROGRAM, 1);
  ::setenv("TERM", how.type.c_str(), 1);
  ::unsetenv("NO_COLOR");
  for (const std::string& pair : how.environment) {
    const std::size_t at = pair.find('=');
    ::setenv(pair.substr(0, at).c_str(), pair.substr(at + 1).c_str(), 1);
  }
  ::execlp("bash", "bash", "-c", line.c_str(), nullptr);
  ::_exit(127);
}

/// Reads until the other side is closed.
void read_all(int terminal, const OnTerminal& how, Clock::time_point begun,
              std::string& bytes) {
  bool typed = !how.typed;
  for (;;) {
    pollfd waiting{terminal, POLLIN, 0};
    if (::poll(&waiting, 1, 1000) > 0) {
      char piece[4096];
      const auto got = ::read(terminal, piece, sizeof piece);
      if (got <= 0) return;
      bytes.append(piece, static_cast<std::size_t>(got));
    }
    if (!typed && bytes.find(how.waits_for) != std::string::npos) {
      typed = true;
      const std::string keys = how.typed();
      CHECK(::write(terminal, keys.data(), keys.size()) ==
            static_cast<ssize_t>(keys.size()));
    }
    if (Clock::now() - begun > kLongest) return;
  }
}

}  // namespace

Shown run_on_terminal(const std::filesystem::path& folder,
                      const std::string& line, const OnTerminal& how) {
  winsize size{};
  size.ws_row = 50;
  size.ws_col = static_cast<unsigned short>(how.columns);
  int terminal = -1;
  const Clock::time_point begun = Clock::now();
  const pid_t child = ::forkpty(&terminal, nullptr, nullptr, &size);
  REQUIRE(child >= 0);
  if (child == 0) be_the_child(folder, line, how);
  Shown shown;
  read_all(terminal, how, begun, shown.bytes);
  const std::chrono::duration<double> took = Clock::now() - begun;
  shown.seconds = took.count();
  if (took > kLongest) ::kill(child, SIGKILL);
  int ended = 0;
  REQUIRE(::waitpid(child, &ended, 0) == child);
  ::close(terminal);
  shown.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : 128 + WTERMSIG(ended);
  CHECK(took <= kLongest);
  return shown;
}

std::vector<std::string> screen_of(const std::string& bytes,
                                   std::size_t* widest) {
  using Line = std::vector<std::string>;  // a character each
  std::vector<Line> lines(1);
  std::size_t column = 0, most = 0;
  for (std::size_t k = 0; k < bytes.size(); ++k) {
    Line& line = lines.back();
    const char c = bytes[k];
    const std::string code = bytes.substr(k, 3);
    CAPTURE(k, bytes.substr(k, 10));
    if (c == '\r') {
      column = 0;
    } else if (c == '\n') {
      lines.emplace_back();
    } else if (code == "\x1b[J" || code == "\x1b[K") {
      line.resize(std::min(line.size(), column));
      k += 2;
    } else if (c == '\x1b') {
      const std::size_t end = bytes.find_first_not_of("0123456789;", k + 2);
      REQUIRE((end != std::string::npos && bytes[k + 1] == '[' &&
               bytes[end] == 'm'));
      k = end;
    } else if ((static_cast<unsigned char>(c) & 0xc0) == 0x80) {
      line.at(column - 1) += c;
    } else {
      if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
        FAIL("a control character on the screen");
      line.resize(std::max(line.size(), column + 1), " ");
      line[column] = c;
      most = std::max(most, ++column);
    }
  }
  std::vector<std::string> texts;
  for (const Line& line : lines) {
    std::string& text = texts.emplace_back();
    for (const std::string& character : line) text += character;
    text.erase(text.find_last_not_of(' ') + 1);
  }
  while (!texts.empty() && texts.back().empty()) texts.pop_back();
  if (widest) *widest = most;
  return texts;
}

}  // namespace thinspot::tests
