#include "io/sweep_crew.hpp"

#include "io/sweep_supervisor.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/message.hpp"

#include <fmt/format.h>

#include <poll.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstring>

namespace thinspot::io {

namespace {

[[noreturn]] void cannot_start(std::size_t number, std::size_t of, int reason) {
  throw NoResultError(
      fmt::format("process {} of {} could not be started: {}; ask for fewer "
                  "with --jobs",
                  number, of, std::strerror(reason)));
}

}  // namespace

SweepCrew::SweepCrew(std::size_t count) {
  for (std::size_t k = 0; k < count; ++k) {
    int ends[2];
    if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, ends) != 0)
      cannot_start(k + 1, count, errno);
    const pid_t child = ::fork();
    const int reason = errno;
    if (child == 0) {
      ::close(ends[0]);
      supervise_sweep(ends[1]);
    }
    ::close(ends[1]);
    if (child < 0) {
      ::close(ends[0]);
      cannot_start(k + 1, count, reason);
    }
    each_.push_back({child, ends[0]});
  }
}

SweepCrew::~SweepCrew() {
  for (const Member& m : each_) {
    if (m.socket >= 0) ::close(m.socket);
    // Whatever it computes nobody waits for any more.
    ::kill(m.process, SIGKILL);
  }
  for (const Member& m : each_)
    while (::waitpid(m.process, nullptr, 0) < 0 && errno == EINTR) {
    }
}

void SweepCrew::begin(const SweepRequest& request) {
  for (const Member& m : each_) mesh::send_message(m.socket, to_bytes(request));
}

void SweepCrew::give(std::size_t worker,
                     const std::vector<std::uint64_t>& points) {
  mesh::Bytes out;
  out.put_all(points);
  // Where it is gone wait() says so.
  if (each_[worker].socket >= 0)
    mesh::send_message(each_[worker].socket, out.text());
}

std::optional<SweepNews> SweepCrew::wait(int milliseconds) {
  std::vector<pollfd> sockets;
  for (const Member& m : each_) sockets.push_back({m.socket, POLLIN, 0});
  if (::poll(sockets.data(), sockets.size(), milliseconds) <= 0) return {};
  for (std::size_t n = 0; n < each_.size(); ++n) {
    const std::size_t k = (next_ + n) % each_.size();
    if (sockets[k].revents == 0) continue;
    next_ = k + 1;
    if (const auto message = mesh::receive_message(each_[k].socket))
      return sweep_news(*message, k);
    ::close(each_[k].socket);
    each_[k].socket = -1;
    SweepNews news;
    news.worker = k;
    news.gone = true;
    return news;
  }
  return {};
}

std::string to_bytes(const SweepNews& news) {
  mesh::Bytes out;
  out.put(news.finished);
  out.put(news.gone);
  out.put_text(to_bytes(news.answers));
  return out.text();
}

SweepNews sweep_news(const std::string& bytes, std::size_t worker) {
  mesh::Bytes in(bytes);
  SweepNews news;
  news.worker = worker;
  news.finished = in.take_flag();
  news.gone = in.take_flag();
  news.answers = sweep_answers(in.take_text());
  return news;
}

}  // namespace thinspot::io
