#pragma once

#include "io/sweep_answer.hpp"
#include "io/sweep_request.hpp"

#include <sys/types.h>
#include <cstdint>
#include <optional>
#include <vector>

namespace thinspot::io {

/// News of one of those who compute.
struct SweepNews {
  std::size_t worker = 0;
  std::vector<SweepAnswer> answers;
  bool finished = false;  ///< all that it was given is answered
  bool gone = false;      ///< it is no more, and what it had is not answered
};

/// Whoever computes points of a sweep, in this machine or in others.
class SweepWorkers {
 public:
  virtual ~SweepWorkers() = default;
  virtual std::size_t count() const = 0;
  /// Tells all of them what the sweep is.
  virtual void begin(const SweepRequest& request) = 0;
  /// @param points  in the order in which they are to be computed
  virtual void give(std::size_t worker,
                    const std::vector<std::uint64_t>& points) = 0;
  /// @returns nothing where there is none for so long
  virtual std::optional<SweepNews> wait(int milliseconds) = 0;
};

/// Processes of this machine. Each is two: one that computes, with limits of
/// time and memory, and one over it that tells which point ended it and starts
/// it again. They end with the process that made them, however that ends.
/// Made before anything is opened that a fork must not share.
class SweepCrew : public SweepWorkers {
 public:
  explicit SweepCrew(std::size_t count);
  ~SweepCrew() override;
  SweepCrew(const SweepCrew&) = delete;
  SweepCrew& operator=(const SweepCrew&) = delete;

  std::size_t count() const override { return each_.size(); }
  /// Of the one over a worker.
  pid_t process(std::size_t worker) const { return each_[worker].process; }
  void begin(const SweepRequest& request) override;
  void give(std::size_t worker,
            const std::vector<std::uint64_t>& points) override;
  std::optional<SweepNews> wait(int milliseconds) override;

 private:
  struct Member {
    pid_t process = -1;
    int socket = -1;
  };
  std::vector<Member> each_;
  std::size_t next_ = 0;  ///< asked first, so that none waits for ever
};

/// The way of news to another process and back; the worker is who sends it.
std::string to_bytes(const SweepNews& news);
SweepNews sweep_news(const std::string& bytes, std::size_t worker);

}  // namespace thinspot::io
