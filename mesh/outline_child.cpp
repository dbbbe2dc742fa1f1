#include "mesh/outline_child.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <csignal>

namespace thinspot::mesh {

namespace {

void limit(int resource, rlim_t most) {
  rlimit now{};
  if (::getrlimit(static_cast<__rlimit_resource>(resource), &now) != 0) return;
  now.rlim_cur = now.rlim_max < most ? now.rlim_max : most;
  ::setrlimit(static_cast<__rlimit_resource>(resource), &now);
}

bool write_all(int file, const std::string& text) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t n = ::write(file, text.data() + done, text.size() - done);
    if (n < 0 && errno != EINTR) return false;
    if (n > 0) done += static_cast<std::size_t>(n);
  }
  return true;
}

/// Never returns: the copy must not run on in our place.
[[noreturn]] void run_and_leave(const std::function<std::string()>& work,
                                int pipe) {
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  ::dup2(nowhere, STDOUT_FILENO);
  ::dup2(nowhere, STDERR_FILENO);
  limit(RLIMIT_CORE, 0);
#ifndef __SANITIZE_ADDRESS__  // which maps terabytes for itself
  limit(RLIMIT_AS, rlim_t{4} << 30);
#endif
  int status = 1;
  try {
    if (write_all(pipe, work())) status = 0;
  } catch (...) {
    // The status says it.
  }
  ::_exit(status);
}

/// All that comes until the other end closes; nothing when time is up.
std::optional<std::string> read_until(
    int pipe, std::chrono::steady_clock::time_point deadline) {
  std::string text;
  char buffer[65536];
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        deadline - std::chrono::steady_clock::now());
    if (left.count() <= 0) return std::nullopt;
    pollfd wait{pipe, POLLIN, 0};
    const int ready = ::poll(&wait, 1, static_cast<int>(left.count()));
    if (ready < 0 && errno != EINTR) return std::nullopt;
    if (ready <= 0) continue;
    const ssize_t n = ::read(pipe, buffer, sizeof buffer);
    if (n == 0) return text;
    if (n < 0 && errno != EINTR) return std::nullopt;
    if (n > 0) text.append(buffer, static_cast<std::size_t>(n));
  }
}

}  // namespace

std::optional<std::string> in_child(const std::function<std::string()>& work,
                                    int seconds) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0) return std::nullopt;
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    run_and_leave(work, ends[1]);
  }
  ::close(ends[1]);
  std::optional<std::string> text;
  if (child > 0) {
    text = read_until(ends[0], std::chrono::steady_clock::now() +
                                   std::chrono::seconds(seconds));
    if (!text) ::kill(child, SIGKILL);
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) text.reset();
  }
  ::close(ends[0]);
  return text;
}

}  // namespace thinspot::mesh
