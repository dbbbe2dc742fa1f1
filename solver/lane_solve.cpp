#include "solver/lane_solve.hpp"

#include <algorithm>
#include <limits>
#include <utility>

namespace thinspot::solver {

namespace {

/// Sound systems need 25 (tests/unit/multigrid_test.cpp says why); a factor
/// takes longer than these where it can be had at all.
constexpr int kMostCycles = 150;
/// Times that it is begun anew where the true rest is not the carried one.
constexpr int kMostBeginnings = 4;
/// By how much they may differ at the end.
constexpr double kSlack = 4;
/// Rounding of a row of some twenty terms, beside its diagonal's.
constexpr double kRounding = 10 * std::numeric_limits<double>::epsilon();

using Some = Eigen::Array<bool, kLanes, 1>;

BorderedRows held_at(const BorderedRows& open, const std::vector<bool>& held) {
  BorderedRows closed = open;
  closed.border.clear(held);
  return closed;
}

Lanes dot(const LaneVector& a, const LaneVector& b) {
  Lanes sum = Lanes::Zero();
  for (std::size_t k = 0; k < a.size(); ++k) sum += a[k] * b[k];
  return sum;
}

class Solve {
 public:
  Solve(const LaneSystem& system, const LaneVector& load,
        const LaneVector& value, LaneWork& work)
      : s_(system), load_(load), w_(work) {
    std::fill(w_.x.begin(), w_.x.end(), Lanes::Zero());
    w_.constant.setZero();
    w_.cycles = 0;
    if (s_.any_held) {
      for (std::size_t k = 0; k < s_.first(); ++k)
        if (s_.held[k]) w_.x[k] = value[k];
      lifted_ = dot_open();
    } else {
      double whole = 0;
      for (std::size_t k = 0; k < s_.first(); ++k) {
        w_.constant += load_[k];
        whole += s_.law_on_ones[k];
      }
      w_.constant /= whole;
    }
  }

  bool run() {
    for (int k = 0; k < kMostBeginnings; ++k) {
      find_rest();
      Lanes left = cycle();
      // Below nothing where the system is not definite.
      done_ = left.abs() <= kSlack * limit();
      if (done_.all() || k + 1 == kMostBeginnings) break;
      descend(left);
    }
    finish();
    return done_.all();
  }

 private:
  Lanes dot_open() { return multiply(s_.open, w_.x, w_.pushed); }

  /// The true rest: what is carried along drifts by rounding.
  void find_rest() {
    dot_open();
    Lanes size = Lanes::Zero();
    for (std::size_t i = 0; i < w_.x.size(); ++i) {
      w_.rest[i] = -w_.pushed[i];
      size += s_.open.diagonal(static_cast<int>(i)) * w_.x[i].square();
    }
    for (std::size_t k = 0; k < s_.first(); ++k) {
      if (s_.held[k]) {
        w_.rest[k].setZero();
        continue;
      }
      w_.rest[k] += load_[k] - s_.law_on_ones[k] * w_.constant;
      size += s_.law_on_ones[k] * w_.constant.square();
    }
    rounding_ = kRounding * kRounding * size;
  }

  Lanes cycle() {
    return s_.multigrid.cycle(w_.rest, w_.mended, w_.pushed, w_.room);
  }

  /// Square of the energy norm that the error may have. Held values are lifted
  /// by a field that is nothing beside them, whose energy is far above that of
  /// the solution: a(x, x) = a(lift, lift) + 2 load . y - a(y, y), x = lift +
  /// y.
  Lanes limit() const {
    Lanes energy = gained_;
    if (s_.any_held) {
      Lanes on_load = Lanes::Zero();
      for (std::size_t k = 0; k < s_.first(); ++k)
        if (!s_.held[k]) on_load += load_[k] * w_.x[k];
      energy = lifted_ + 2 * on_load - gained_;
    }
    return (kEnergyError * kEnergyError * energy).max(rounding_);
  }

  void descend(Lanes left) {
    Some still = !done_;
    std::copy(w_.mended.begin(), w_.mended.end(), w_.way.begin());
    for (int k = 0; k < kMostCycles; ++k) {
      const Lanes push = multiply(s_.closed, w_.way, w_.pushed);
      still = still && push > 0 && left > 0;
      if (!still.any()) return;
      ++w_.cycles;
      const Lanes step = still.select(left / push, Lanes::Zero());
      for (std::size_t i = 0; i < w_.x.size(); ++i) {
        w_.x[i] += step * w_.way[i];
        w_.rest[i] -= step * w_.pushed[i];
      }
      gained_ += step * left;
      const Lanes next = cycle();
      still = still && next > limit();
      if (!still.any()) return;
      const Lanes keep = still.select(next / left, Lanes::Zero());
      for (std::size_t i = 0; i < w_.x.size(); ++i)
        w_.way[i] = w_.mended[i] + keep * w_.way[i];
      left = next;
    }
  }

  /// The cycle that showed the error is one more step; then the constant that
  /// makes currents balance.
  void finish() {
    for (std::size_t i = 0; i < w_.x.size(); ++i) w_.x[i] += w_.mended[i];
    find_rest();
    if (!s_.any_held) {
      Lanes sum = Lanes::Zero();
      double whole = 0;
      for (const Lanes& rest : w_.rest) sum += rest;
      for (double law : s_.law_on_ones) whole += law;
      w_.constant += sum / whole;
      for (std::size_t k = 0; k < s_.first(); ++k)
        w_.rest[k] -= s_.law_on_ones[k] * (sum / whole);
    }
    w_.rest_square = dot(w_.rest, w_.rest);
    w_.x_square.setZero();
    for (const Lanes& x : w_.x) w_.x_square += (x + w_.constant).square();
  }

  const LaneSystem& s_;
  const LaneVector& load_;
  LaneWork& w_;
  Lanes lifted_ = Lanes::Zero(), gained_ = Lanes::Zero();
  Lanes rounding_ = Lanes::Zero();
  Some done_ = Some::Constant(false);
};

}  // namespace

LaneSystem::LaneSystem(BorderedRows without, const Corners& corners,
                       std::vector<bool> which, std::vector<double> on_ones)
    : open(std::move(without)),
      closed(held_at(open, which)),
      held(std::move(which)),
      any_held(std::find(held.begin(), held.end(), true) != held.end()),
      law_on_ones(std::move(on_ones)),
      multigrid(closed, corners, held) {}

LaneWork::LaneWork(const LaneSystem& system)
    : x(static_cast<std::size_t>(system.open.size())),
      rest(x.size()),
      way(x.size()),
      pushed(x.size()),
      mended(x.size()),
      room(system.multigrid.room()) {}

bool solve_lanes(const LaneSystem& system, const LaneVector& load,
                 const LaneVector& value, LaneWork& work) {
  return Solve(system, load, value, work).run();
}

}  // namespace thinspot::solver
