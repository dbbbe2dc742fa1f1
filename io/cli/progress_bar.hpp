#pragma once

#include "io/cli/time_left.hpp"
#include "solver/progress.hpp"

#include <chrono>

namespace thinspot::io::cli {

/// One line on standard error that says how far long work is, drawn over itself
/// and wiped in the end, also by interrupts (Ctrl-C, Ctrl-Z): what then stands
/// on the terminal is what would stand there without. Nothing is drawn where
/// standard error is no terminal, for a process in the background, and for work
/// that is soon done. At most one at a time.
class ProgressBar : public solver::ProgressListener {
 public:
  /// @param wanted  false: nothing is ever drawn
  explicit ProgressBar(bool wanted);
  ~ProgressBar() override;
  ProgressBar(const ProgressBar&) = delete;
  ProgressBar& operator=(const ProgressBar&) = delete;

  void hear(const solver::Report& report) override;

  /// Takes the line off and draws no more: before anything else is printed.
  void finish();

 private:
  using Clock = std::chrono::steady_clock;
  void draw(const solver::Report& report, Clock::time_point now);

  bool draws_;
  bool coloured_ = false;
  Clock::time_point begun_, next_;
  TimeLeft left_;
};

}  // namespace thinspot::io::cli
