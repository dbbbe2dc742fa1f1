#include "io/cli/progress_bar.hpp"

#include "io/cli/progress_line.hpp"
#include "io/cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <string>
#include <string_view>

namespace thinspot::io::cli {

namespace {

using namespace std::chrono_literals;

constexpr auto kSoonDone = 400ms, kBetween = 100ms;
constexpr int kUsualWidth = 80;

/// To the first column, and all from there on away: of a line that was drawn
/// when the terminal was wider too.
constexpr std::string_view kWipe = "\r\x1b[J";

// A handler of signals is given nothing but the signal's number.
volatile std::sig_atomic_t on_screen = 0;

void write_all(std::string_view text) {
  // A line that does not get there is no error of the work that it is about.
  [[maybe_unused]] const auto written =
      ::write(STDERR_FILENO, text.data(), text.size());
}

void wipe() {
  if (on_screen) write_all(kWipe);
  on_screen = 0;
}

/// What a signal does, with the terminal clean.
extern "C" void wiped_by(int signal) {
  const int before = errno;
  wipe();
  ::raise(signal == SIGTSTP ? SIGSTOP : signal);
  errno = before;
}

constexpr std::array kSignals{SIGINT, SIGTERM, SIGQUIT, SIGHUP, SIGTSTP};

/// Where the process does with a signal what `from` does, it does as `to`.
void handle(void (*from)(int), void (*to)(int)) {
  for (const int signal : kSignals) {
    struct sigaction now {};
    ::sigaction(signal, nullptr, &now);
    if (now.sa_handler != from) continue;
    now.sa_handler = to;
    // Once: raised again it ends the process. Who is stopped comes back.
    now.sa_flags = SA_RESTART;
    if (signal != SIGTSTP) now.sa_flags |= static_cast<int>(SA_RESETHAND);
    ::sigaction(signal, &now, nullptr);
  }
}

/// Of the terminal, which the user may make another [columns].
int width() {
  winsize size{};
  if (::ioctl(STDERR_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
    return kUsualWidth;
  return size.ws_col;
}

bool in_background() {
  const pid_t front = ::tcgetpgrp(STDERR_FILENO);
  return front >= 0 && front != ::getpgrp();
}

}  // namespace

ProgressBar::ProgressBar(bool wanted)
    : draws_(wanted && is_terminal(stderr)),
      coloured_(may_colour(stderr)),
      begun_(Clock::now()),
      next_(begun_ + kSoonDone) {
  if (draws_) handle(SIG_DFL, wiped_by);
}

ProgressBar::~ProgressBar() { finish(); }

void ProgressBar::finish() {
  if (!draws_) return;
  draws_ = false;
  wipe();
  handle(wiped_by, SIG_DFL);
}

void ProgressBar::hear(const solver::Report& report) {
  if (!draws_) return;
  const Clock::time_point now = Clock::now();
  if (now >= next_) draw(report, now);
}

void ProgressBar::draw(const solver::Report& report, Clock::time_point now) {
  next_ = now + kBetween;
  const std::chrono::duration<double> passed = now - begun_;
  const auto left = left_.after(report.share, passed.count());
  if (in_background()) return;
  // The cursor waits in the first column: what another program or the terminal
  // itself (^C) writes meanwhile does not stand behind the line.
  const std::string line =
      "\r" + progress_line(report, left, width(), coloured_) + "\x1b[J\r";
  on_screen = 1;
  write_all(line);
}

}  // namespace thinspot::io::cli
