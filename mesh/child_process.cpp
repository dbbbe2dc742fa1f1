#include "mesh/child_process.hpp"

#include "mesh/errors.hpp"
#include "mesh/message.hpp"

#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <exception>
#include <optional>
#include <utility>

namespace thinspot::mesh {

namespace {

/// First byte of what a child sends.
constexpr char kDone = 'd', kFailed = 'f';

/// Third parties leak: after so many requests a child makes room for another.
constexpr int kMostRequests = 500;

std::string outcome_of(const Child::Work& work, const std::string& request) {
  try {
    return kDone + work(request);
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

[[noreturn]] void be_the_child(const Child::Work& work, int socket,
                               unsigned seconds) {
  let_go_of_files(socket);
  limit(RLIMIT_CORE, 0);
// Sanitizers map terabytes for themselves.
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
  limit(RLIMIT_AS, rlim_t{4} << 30);
#endif
  std::signal(SIGABRT, SIG_DFL);
  while (const std::optional<std::string> request = receive_message(socket)) {
    ::alarm(seconds);
    if (!send_message(socket, outcome_of(work, *request))) break;
    ::alarm(0);
  }
  ::_exit(0);
}

}  // namespace

Child::Child(Work work, std::string what, unsigned seconds)
    : work_(std::move(work)), what_(std::move(what)), seconds_(seconds) {}

Child::~Child() { end(); }

void Child::start() {
  int ends[2];
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
    throw NoResultError(what_ +
                        " could not be started: " + std::strerror(errno));
  const pid_t child = ::fork();
  if (child == 0) be_the_child(work_, ends[1], seconds_);
  ::close(ends[1]);
  if (child < 0) {
    const int why = errno;
    ::close(ends[0]);
    throw NoResultError(what_ + " could not be started: " + std::strerror(why));
  }
  parent_ = ::getpid();
  child_ = child;
  socket_ = ends[0];
  requests_ = 0;
  unwanted_ = false;
}

int Child::end() {
  if (socket_ >= 0) ::close(socket_);
  int status = 0;
  if (child_ >= 0 && parent_ == ::getpid())
    while (::waitpid(child_, &status, 0) < 0 && errno == EINTR) {
    }
  socket_ = -1;
  child_ = -1;
  return status;
}

void Child::begin(const std::string& request) {
  const std::lock_guard lock(one_at_a_time_);
  if (child_ >= 0) return;
  start();
  ++requests_;
  unwanted_ = send_message(socket_, request);
}

std::string Child::ask(const std::string& request) {
  const std::lock_guard lock(one_at_a_time_);
  if (child_ >= 0 && (parent_ != ::getpid() || requests_ == kMostRequests))
    end();
  // One that ended over it is started anew.
  if (child_ >= 0 && unwanted_ && !receive_message(socket_)) end();
  unwanted_ = false;
  if (child_ < 0) start();
  ++requests_;
  std::optional<std::string> outcome;
  if (send_message(socket_, request)) outcome = receive_message(socket_);
  if (!outcome || outcome->empty()) {
    const int status = end();
    const bool late = WIFSIGNALED(status) && WTERMSIG(status) == SIGALRM;
    throw NoResultError(what_ + (late ? " took too long" : " crashed"));
  }
  if (outcome->front() == kFailed) throw NoResultError(outcome->substr(1));
  return outcome->substr(1);
}

std::string in_child(const std::function<std::string()>& work,
                     const std::string& what, unsigned seconds) {
  return Child([&](const std::string&) { return work(); }, what, seconds)
      .ask("");
}

void Bytes::check_left(std::size_t size) const {
  if (size > left())
    throw NoResultError("what another process sent is cut short");
}

std::size_t Bytes::take_count(std::size_t least) {
  const auto count = take<std::size_t>();
  if (count > left() / least) check_left(left() + 1);
  return count;
}

bool Bytes::take_flag() {
  const auto byte = take<unsigned char>();
  if (byte > 1) throw NoResultError("what another process sent is no flag");
  return byte == 1;
}

void Bytes::next(void* to, std::size_t size) {
  check_left(size);
  // A list without anything has no place either.
  if (size > 0) std::memcpy(to, text_.data() + at_, size);
  at_ += size;
}

}  // namespace thinspot::mesh
