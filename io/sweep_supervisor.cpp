#include "io/sweep_supervisor.hpp"

#include "io/sweep.hpp"
#include "io/sweep_crew.hpp"
#include "io/sweep_work.hpp"
#include "mesh/child_process.hpp"
#include "mesh/errors.hpp"
#include "mesh/message.hpp"

#include <sys/prctl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <map>
#include <memory>
#include <set>
#include <string>

namespace thinspot::io {

namespace {

using Clock = std::chrono::steady_clock;

/// What is asked of the child at once takes about so long, so that what one
/// point costs is never more than that and itself.
constexpr auto kStretch = std::chrono::milliseconds(300);

/// Of a group, before its points are no longer tried on shared meshes.
constexpr int kMostLost = 2;

constexpr const char* kTryAgain =
    "; --again tries it once more, with --longest for longer";

/// Whoever starts it may be killed, and it must not work on for nobody.
void end_with_parent() { ::prctl(PR_SET_PDEATHSIG, SIGKILL); }

/// @param alone  each on a mesh of its own
std::string asked(const std::vector<std::uint64_t>& points, bool alone) {
  mesh::Bytes out;
  out.put(alone);
  out.put_all(points);
  return out.text();
}

/// Answers to the first of the points, as many as there is time for.
std::string computed(SweepWork& work, const std::string& request) {
  end_with_parent();
  mesh::Bytes in(request);
  const bool alone = in.take_flag();
  const auto points = in.take_all<std::uint64_t>();
  const auto enough = Clock::now() + kStretch;
  std::vector<SweepAnswer> answers;
  for (const std::uint64_t point : points) {
    answers.push_back(work.answer(point, alone));
    if (Clock::now() >= enough) break;
  }
  return to_bytes(answers);
}

class Supervisor {
 public:
  Supervisor(int socket, const SweepRequest& request)
      : socket_(socket),
        sweep_(request),
        work_(sweep_),
        child_([this](const std::string& r) { return computed(work_, r); },
               "computing it", request.longest) {}

  /// @returns false where nobody listens any more
  bool answer(const std::vector<std::uint64_t>& points) {
    for (std::size_t at = 0; at < points.size();) {
      SweepNews news;
      news.answers = some_of(
          {points.begin() + static_cast<std::ptrdiff_t>(at), points.end()});
      at += news.answers.size();
      news.finished = at == points.size();
      if (!mesh::send_message(socket_, to_bytes(news))) return false;
    }
    return true;
  }

 private:
  std::vector<SweepAnswer> some_of(const std::vector<std::uint64_t>& points) {
    const std::uint64_t group = sweep_.group_of(points.front());
    if (singly_ == 0 && !broken_.contains(group)) try {
        return sweep_answers(child_.ask(asked(points, false)));
      } catch (const NoResultError&) {
        singly_ = points.size();
      }
    if (singly_ > 0) --singly_;
    return {alone(points.front(), group)};
  }

  /// Which of them it was that ended the child, or whether it was what they
  /// share.
  SweepAnswer alone(std::uint64_t point, std::uint64_t group) {
    if (sweep_.shares() && !broken_.contains(group)) try {
        return sweep_answers(child_.ask(asked({point}, false))).front();
      } catch (const NoResultError&) {
      }
    try {
      SweepAnswer a = sweep_answers(child_.ask(asked({point}, true))).front();
      broken_.insert(group);
      return a;
    } catch (const NoResultError& error) {
      // One point may be at fault, but hardly several.
      if (++lost_[group] == kMostLost) broken_.insert(group);
      return {point,
              SweepAnswer::Status::lost,
              std::string(error.what()) + kTryAgain,
              {}};
    }
  }

  int socket_;
  Sweep sweep_;
  SweepWork work_;
  mesh::Child child_;
  std::size_t singly_ = 0;  ///< so many points are asked for one by one
  /// Groups whose shared meshes end the child; and how many points were lost.
  std::set<std::uint64_t> broken_;
  std::map<std::uint64_t, int> lost_;
};

}  // namespace

void supervise_sweep(int socket) {
  end_with_parent();
  mesh::let_go_of_files(socket);
  std::unique_ptr<Supervisor> supervisor;
  try {
    while (const auto message = mesh::receive_message(socket)) {
      if (!supervisor) {
        supervisor =
            std::make_unique<Supervisor>(socket, sweep_request(*message));
        continue;
      }
      mesh::Bytes in(*message);
      if (!supervisor->answer(in.take_all<std::uint64_t>())) break;
    }
  } catch (...) {  // whoever waits sees that it is gone
  }
  supervisor.reset();
  ::_exit(0);
}

}  // namespace thinspot::io
