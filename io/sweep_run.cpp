#include "io/sweep_run.hpp"

#include "mesh/errors.hpp"

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <deque>
#include <set>
#include <utility>
#include <vector>

namespace thinspot::io {

namespace {

using Clock = std::chrono::steady_clock;

/// What is given out at once takes about so long [s], two of it wait at each
/// worker, and it is never more than so many points.
constexpr double kPortion = 0.25;
constexpr std::size_t kAhead = 2, kMostAtOnce = 256;
/// Of what a worker has left it gets at most this part at once, so that others
/// find something to take.
constexpr std::size_t kPart = 4;
constexpr int kPatience = 200;  // ms

/// Places in the list of points to do, from .. to.
struct Stretch {
  std::size_t from = 0, to = 0;
  std::size_t length() const { return to - from; }
};

class HandOut {
 public:
  HandOut(const Sweep& sweep, SweepWorkers& workers, SweepStore& store)
      : sweep_(sweep),
        workers_(workers),
        store_(store),
        each_(workers.count()) {
    const std::vector<bool> answered = store.answered();
    for (std::uint64_t k = 0; k < sweep.size(); ++k) {
      const std::uint64_t point = sweep.point_at(k);
      if (!answered[point]) to_do_.push_back(static_cast<std::uint32_t>(point));
    }
    missing_ = to_do_.size();
    std::size_t from = 0;
    for (std::size_t w = 0; w < each_.size(); ++w) {
      const std::size_t to =
          w + 1 == each_.size()
              ? to_do_.size()
              // The border before may lie beyond where this one would.
              : group_border(
                    from,
                    std::max(from, to_do_.size() * (w + 1) / each_.size()),
                    to_do_.size());
      each_[w].own = {from, to};
      from = to;
    }
  }

  std::uint64_t run(const solver::Progress& progress) {
    const std::size_t all = missing_;
    if (all == 0) return 0;
    const auto told = [&] {
      progress.named({"points", "point", all - missing_, all})
          .at(static_cast<double>(all - missing_) / static_cast<double>(all));
    };
    workers_.begin(sweep_.request());
    for (std::size_t w = 0; w < each_.size(); ++w) fill(w);
    while (missing_ > 0) {
      auto news = workers_.wait(kPatience);
      if (!news) {
        store_.add({});  // what waits does not wait for more
        continue;
      }
      take(std::move(*news));
      told();
    }
    store_.write();
    return all;
  }

 private:
  struct Worker {
    Stretch own;
    std::deque<std::uint32_t> given;  ///< not answered yet
    std::size_t portions = 0;         ///< of these
    Clock::time_point since = Clock::now();
    double seconds_each = 0;  ///< that a point took lately; 0: not known
    bool gone = false;
  };

  /// The place between two groups that is nearest after `at`, if it is near.
  std::size_t group_border(std::size_t from, std::size_t at,
                           std::size_t to) const {
    const std::size_t far = (to - from) / (2 * kPart);
    for (std::size_t k = at; k > from && k < to && k - at <= far; ++k)
      if (sweep_.group_of(to_do_[k]) != sweep_.group_of(to_do_[k - 1]))
        return k;
    return at;
  }

  /// Half of the longest stretch that another has.
  Stretch taken_over() {
    auto most = std::max_element(each_.begin(), each_.end(),
                                 [](const Worker& a, const Worker& b) {
                                   return a.own.length() < b.own.length();
                                 });
    Stretch& there = most->own;
    const std::size_t middle =
        most->gone ? there.from
                   : group_border(there.from, there.from + there.length() / 2,
                                  there.to);
    const Stretch half{middle, there.to};
    there.to = middle;
    return half;
  }

  std::size_t portion_for(const Worker& w) const {
    const std::size_t part = (w.own.length() + kPart - 1) / kPart;
    if (w.seconds_each <= 0) return std::clamp<std::size_t>(part, 1, 8);
    const auto in_time =
        static_cast<std::size_t>(std::min(1e6, kPortion / w.seconds_each));
    return std::clamp<std::size_t>(std::min(in_time, part), 1, kMostAtOnce);
  }

  void fill(std::size_t number) {
    Worker& w = each_[number];
    while (!w.gone && w.portions < kAhead) {
      std::vector<std::uint64_t> points;
      if (!again_.empty()) {
        points.push_back(again_.front());
        again_.pop_front();
      } else {
        if (w.own.length() == 0) w.own = taken_over();
        if (w.own.length() == 0) return;
        const std::size_t end =
            w.own.from + std::min(w.own.length(), portion_for(w));
        for (; w.own.from < end; ++w.own.from)
          points.push_back(to_do_[w.own.from]);
      }
      if (w.given.empty()) w.since = Clock::now();
      for (const std::uint64_t point : points)
        w.given.push_back(static_cast<std::uint32_t>(point));
      ++w.portions;
      workers_.give(number, points);
    }
  }

  void take(SweepNews news) {
    Worker& w = each_[news.worker];
    const std::size_t count = news.answers.size();
    for (const SweepAnswer& a : news.answers) {
      const auto found = std::find(w.given.begin(), w.given.end(),
                                   static_cast<std::uint32_t>(a.point));
      if (found != w.given.end()) w.given.erase(found);
    }
    if (count > 0) {
      const auto now = Clock::now();
      w.seconds_each = std::chrono::duration<double>(now - w.since).count() /
                       static_cast<double>(count);
      w.since = now;
    }
    missing_ -= count;
    store_.add(std::move(news.answers));
    if (news.finished && w.portions > 0) --w.portions;
    if (news.gone) give_up(w);
    fill(news.worker);
    if (news.gone)
      for (std::size_t other = 0; other < each_.size(); ++other) fill(other);
  }

  /// Its points go to others, but not the one that it was at where that has
  /// ended another before it.
  void give_up(Worker& w) {
    w.gone = true;
    for (const std::uint32_t point : w.given) {
      const bool before = !given_up_.insert(point).second;
      if (!before || point != w.given.front()) {
        again_.push_back(point);
        continue;
      }
      store_.add({{point,
                   SweepAnswer::Status::lost,
                   "its process was ended from outside",
                   {}}});
      --missing_;
    }
    w.given.clear();
    w.portions = 0;
    if (std::all_of(each_.begin(), each_.end(),
                    [](const Worker& each) { return each.gone; })) {
      store_.write();
      throw NoResultError(
          "all processes that computed were ended from outside; what they had "
          "done is stored: run the same again, it goes on from there");
    }
  }

  const Sweep& sweep_;
  SweepWorkers& workers_;
  SweepStore& store_;
  std::vector<Worker> each_;
  std::vector<std::uint32_t> to_do_;  ///< points, by position
  std::size_t missing_ = 0;
  std::deque<std::uint32_t> again_;
  std::set<std::uint32_t> given_up_;
};

}  // namespace

std::uint64_t run_sweep(const Sweep& sweep, SweepWorkers& workers,
                        SweepStore& store, const solver::Progress& progress) {
  store.begin_run(workers.count());
  HandOut hand_out(sweep, workers, store);
  return hand_out.run(progress);
}

}  // namespace thinspot::io
