#include "io/cli/window_process.hpp"

#include "mesh/descriptor_bytes.hpp"
#include "mesh/errors.hpp"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>
#include <filesystem>
#include <system_error>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

fs::path window_program() {
  std::error_code error;
  const fs::path here = fs::read_symlink("/proc/self/exe", error);
  return here.parent_path() / "thinspot-window";
}

/// While it lives, Ctrl-C is the window's alone, as under system().
class LeaveInterrupts {
 public:
  LeaveInterrupts()
      : interrupt_(std::signal(SIGINT, SIG_IGN)),
        quit_(std::signal(SIGQUIT, SIG_IGN)) {}
  ~LeaveInterrupts() {
    std::signal(SIGINT, interrupt_);
    std::signal(SIGQUIT, quit_);
  }
  LeaveInterrupts(const LeaveInterrupts&) = delete;
  LeaveInterrupts& operator=(const LeaveInterrupts&) = delete;

 private:
  void (*interrupt_)(int);
  void (*quit_)(int);
};

/// Starts the program with its standard input from a pipe.
pid_t start(const fs::path& program, int input) {
  posix_spawn_file_actions_t files;
  posix_spawn_file_actions_init(&files);
  posix_spawn_file_actions_adddup2(&files, input, STDIN_FILENO);
  posix_spawnattr_t how;
  posix_spawnattr_init(&how);
  sigset_t usual;
  sigemptyset(&usual);
  sigaddset(&usual, SIGINT);
  sigaddset(&usual, SIGQUIT);
  posix_spawnattr_setsigdefault(&how, &usual);
  posix_spawnattr_setflags(&how, POSIX_SPAWN_SETSIGDEF);
  std::string name = program.string();
  char* arguments[] = {name.data(), nullptr};
  pid_t child = -1;
  const int problem =
      ::posix_spawn(&child, name.c_str(), &files, &how, arguments, ::environ);
  posix_spawnattr_destroy(&how);
  posix_spawn_file_actions_destroy(&files);
  if (problem != 0)
    throw NoResultError(name + " cannot be started: " + std::strerror(problem) +
                        "; build or install it beside thinspot");
  return child;
}

/// A reader that went away is told by its exit status.
void hand_over(int to, const std::string& bytes) {
  mesh::write_all(to, bytes);
  ::close(to);
}

}  // namespace

int run_window(const WindowPacket& packet) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0)
    throw NoResultError(std::string("the window cannot be started: ") +
                        std::strerror(errno));
  int status = 0;
  {
    const LeaveInterrupts waiting;
    pid_t child = -1;
    try {
      child = start(window_program(), ends[0]);
    } catch (...) {
      ::close(ends[0]);
      ::close(ends[1]);
      throw;
    }
    ::close(ends[0]);
    hand_over(ends[1], to_bytes(packet));
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
  }
  if (WIFSIGNALED(status)) {
    const int signal = WTERMSIG(status);
    // Whoever ended the window meant to end us.
    if (signal == SIGINT || signal == SIGTERM || signal == SIGHUP)
      std::raise(signal);
    throw NoResultError(
        "the window crashed; this display cannot draw it (OpenGL 3.2 is "
        "needed)");
  }
  const int ended = WEXITSTATUS(status);
  // What X does where its display goes away.
  if (ended == 1) throw NoResultError("the display was closed");
  return ended;
}

}  // namespace thinspot::io::cli
