#include "mesh/child_process.hpp"

#include "mesh/errors.hpp"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <exception>

namespace thinspot::mesh {

namespace {

/// First byte of what a child sends.
constexpr char kDone = 'd', kFailed = 'f';

void send(int to, const char* bytes, std::size_t size) {
  while (size > 0) {
    const ssize_t sent = ::write(to, bytes, size);
    if (sent < 0 && errno == EINTR) continue;
    if (sent <= 0) return;
    bytes += sent;
    size -= static_cast<std::size_t>(sent);
  }
}

std::string receive(int from) {
  std::string bytes;
  char buffer[65536];
  for (;;) {
    const ssize_t got = ::read(from, buffer, sizeof buffer);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return bytes;
    bytes.append(buffer, static_cast<std::size_t>(got));
  }
}

std::string outcome_of(const std::function<std::string()>& work) {
  try {
    return kDone + work();
  } catch (const std::exception& error) {
    return kFailed + std::string(error.what());
  } catch (const std::string& error) {  // Gmsh throws these
    return kFailed + error;
  } catch (...) {
    return std::string(1, kFailed) + "no reason given";
  }
}

void limit(int resource, rlim_t most) {
  rlimit now{};
  if (::getrlimit(static_cast<__rlimit_resource>(resource), &now) != 0) return;
  now.rlim_cur = now.rlim_max < most ? now.rlim_max : most;
  ::setrlimit(static_cast<__rlimit_resource>(resource), &now);
}

[[noreturn]] void be_the_child(const std::function<std::string()>& work, int to,
                               unsigned seconds) {
  // Its last words are ours to tell.
  const int nowhere = ::open("/dev/null", O_WRONLY);
  if (nowhere >= 0) {
    ::dup2(nowhere, STDOUT_FILENO);
    ::dup2(nowhere, STDERR_FILENO);
  }
  limit(RLIMIT_CORE, 0);
#ifndef __SANITIZE_ADDRESS__  // which maps terabytes for itself
  limit(RLIMIT_AS, rlim_t{4} << 30);
#endif
  std::signal(SIGPIPE, SIG_IGN);
  std::signal(SIGABRT, SIG_DFL);
  ::alarm(seconds);
  const std::string outcome = outcome_of(work);
  send(to, outcome.data(), outcome.size());
  ::_exit(0);
}

}  // namespace

std::string in_child(const std::function<std::string()>& work,
                     const std::string& what, unsigned seconds) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0)
    throw NoResultError(what +
                        " could not be started: " + std::strerror(errno));
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    be_the_child(work, ends[1], seconds);
  }
  ::close(ends[1]);
  if (child < 0) {
    ::close(ends[0]);
    throw NoResultError(what +
                        " could not be started: " + std::strerror(errno));
  }
  const std::string outcome = receive(ends[0]);
  ::close(ends[0]);
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  if (WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM)
    throw NoResultError(what + " took too long");
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0 || outcome.empty())
    throw NoResultError(what + " crashed");
  if (outcome.front() == kFailed) throw NoResultError(outcome.substr(1));
  return outcome.substr(1);
}

void Bytes::next(void* to, std::size_t size) {
  if (size > text_.size() - at_)
    throw NoResultError("what a child process sent is cut short");
  std::memcpy(to, text_.data() + at_, size);
  at_ += size;
}

}  // namespace thinspot::mesh
