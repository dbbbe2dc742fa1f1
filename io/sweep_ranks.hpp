#pragma once

#include "io/sweep_crew.hpp"

#include <deque>
#include <memory>
#include <string>
#include <vector>

namespace thinspot::io {

/// The ranks of an MPI run: each has one process of its own machine compute,
/// the first of them hands out points and takes what comes back. Worker k is
/// rank k's. Nobody spins while there is nothing to do: a rank looks for
/// messages every millisecond while its process works.
class SweepRanks : public SweepWorkers {
 public:
  /// Joins the run.
  /// @param own  the one process of this rank
  explicit SweepRanks(SweepCrew& own);
  /// The first rank tells the others that all is done; all leave together.
  ~SweepRanks() override;
  SweepRanks(const SweepRanks&) = delete;
  SweepRanks& operator=(const SweepRanks&) = delete;

  /// Whether this is the first rank.
  bool leads() const { return rank_ == 0; }

  /// What the other ranks do until all is done.
  void serve();

  std::size_t count() const override { return static_cast<std::size_t>(size_); }
  void begin(const SweepRequest& request) override;
  void give(std::size_t worker,
            const std::vector<std::uint64_t>& points) override;
  std::optional<SweepNews> wait(int milliseconds) override;

 private:
  struct Sending;
  void send(int to, int tag, std::string bytes);
  void clear_sent();

  SweepCrew& own_;
  int rank_ = 0, size_ = 1;
  /// On their way, with the bytes that must stay until they are there.
  std::deque<std::unique_ptr<Sending>> sending_;
};

}  // namespace thinspot::io
