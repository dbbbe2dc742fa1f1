#pragma once

#include <cmath>
#include <cstddef>

namespace thinspot::solver {

/// What is being done, in words that an output may show: "error bars", "angle
/// 5 of 16", "mesh and currents, step 2 of 4".
struct Stage {
  const char* name = "";           ///< literals all: the pointers are kept
  const char* unit = "";           ///< of what is counted
  std::size_t number = 0, of = 0;  ///< from 1; of = 0: nothing is counted
};

/// How far long work is.
struct Report {
  double share = 0;  ///< of the whole, 0 to 1; never less than the one before
  Stage over;        ///< what the stage is a piece of, a layer for one
  Stage stage;
};

/// Whoever wants to know. Reports come from the thread that works, many in a
/// millisecond or none for some seconds.
class ProgressListener {
 public:
  virtual ~ProgressListener() = default;
  virtual void hear(const Report& report) = 0;
};

/// A stretch of the whole, handed down to the work that fills it. Work says how
/// much of its own stretch is done and knows nothing of the rest. One made of
/// nothing tells nobody.
class Progress {
 public:
  Progress() = default;
  /// The whole. The listener outlives it.
  explicit Progress(ProgressListener& listener) : listener_(&listener) {}

  /// From one share of this stretch to another.
  Progress part(double from, double to) const {
    Progress p = *this;
    p.from_ = std::lerp(from_, to_, from);
    p.to_ = std::lerp(from_, to_, to);
    return p;
  }
  /// The number-th of so many alike, from 0, and as many as `count` of them.
  Progress piece(std::size_t number, std::size_t of,
                 std::size_t count = 1) const {
    const auto all = static_cast<double>(of);
    return part(static_cast<double>(number) / all,
                static_cast<double>(number + count) / all);
  }
  /// The same under a name, which parts have until they get their own.
  Progress named(const Stage& stage) const {
    Progress p = *this;
    p.stage_ = stage;
    return p;
  }
  /// The same with a count, unless it has one.
  Progress counted(const char* unit, std::size_t number, std::size_t of) const {
    if (stage_.of > 0) return *this;
    return named({stage_.name, unit, number, of});
  }
  /// The same as a piece of something larger; of several what is largest stays.
  Progress within(const Stage& over) const {
    Progress p = *this;
    if (!*over_.name && over_.of == 0) p.over_ = over;
    return p;
  }

  /// So much of this stretch is done, 0 to 1.
  void at(double share) const {
    if (listener_)
      listener_->hear({std::lerp(from_, to_, share), over_, stage_});
  }

 private:
  ProgressListener* listener_ = nullptr;
  double from_ = 0, to_ = 1;
  Stage over_, stage_;
};

/// Cuts a stretch for work whose length shows only as it goes: each piece
/// takes of what is left as much as its work is of all that is expected yet.
/// What was said stays said; a wrong guess only changes how fast it goes on.
class Unfolding {
 public:
  explicit Unfolding(const Progress& whole) : whole_(whole) {}

  /// The stretch of the next piece. Both in any unit of time.
  /// @param work   of the piece, above 0
  /// @param after  of all pieces that are expected after it
  Progress next(double work, double after) {
    const double from = done_;
    if (after > 0)
      done_ += (1 - done_) * work / (work + after);
    else
      done_ = 1;
    return whole_.part(from, done_);
  }

 private:
  Progress whole_;
  double done_ = 0;
};

}  // namespace thinspot::solver
