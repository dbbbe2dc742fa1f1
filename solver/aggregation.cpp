#include "solver/aggregation.hpp"

#include <algorithm>
#include <vector>

namespace thinspot::solver {

namespace {

/// Couplings below this share of what both ends have on the diagonal are weak:
/// in triangles of moderate angles none is, across thin ones it is.
constexpr double kStrong = 0.06;
/// Damping of Jacobi, 4 / (3 lambda): lambda, the largest eigenvalue of what it
/// iterates with, is at most 2, as couplings are at most their diagonal.
constexpr double kDamping = 2.0 / 3.0;

std::size_t at(Eigen::Index k) { return static_cast<std::size_t>(k); }

class Grouping {
 public:
  explicit Grouping(const FullRows& a)
      : a_(a), diagonal_(a.diagonal()), group_(at(a.rows()), kNone) {
    start_groups();
    join_groups();
    gather_rest();
  }

  FullRows smoothed() const {
    FullRows p(a_.rows(), count_);
    Eigen::VectorXi most(a_.rows());
    for (int i = 0; i < a_.rows(); ++i) {
      int n = 1;
      for_strong(i, [&](int, double) { ++n; });
      most(i) = n;
    }
    p.reserve(most);
    std::vector<double> sum(at(count_), 0.0);
    std::vector<int> met;
    for (int i = 0; i < a_.rows(); ++i) {
      if (group_[at(i)] < 0) continue;
      double strong = 0, diagonal = diagonal_(i);
      for (FullRows::InnerIterator it(a_, i); it; ++it) {
        const int j = static_cast<int>(it.col());
        if (j == i) continue;
        if (is_strong(i, j, it.value()))
          strong -= it.value();
        else
          diagonal += it.value();
      }
      const double over = std::max(diagonal, strong);
      const auto add = [&](int group, double weight) {
        if (group < 0) return;
        if (sum[at(group)] == 0) met.push_back(group);
        sum[at(group)] += weight;
      };
      met.clear();
      add(group_[at(i)], 1 - kDamping);
      for_strong(i, [&](int j, double v) {
        add(group_[at(j)], -kDamping * v / over);
      });
      std::sort(met.begin(), met.end());
      for (int group : met) {
        p.insert(i, group) = sum[at(group)];
        sum[at(group)] = 0;
      }
    }
    p.makeCompressed();
    return p;
  }

 private:
  static constexpr int kNone = -1, kAlone = -2;

  bool is_strong(int i, int j, double v) const {
    return v < 0 && v * v > kStrong * kStrong * diagonal_(i) * diagonal_(j);
  }

  template <class Use>
  void for_strong(int i, Use use) const {
    for (FullRows::InnerIterator it(a_, i); it; ++it) {
      const int j = static_cast<int>(it.col());
      if (j != i && is_strong(i, j, it.value())) use(j, it.value());
    }
  }

  /// Where a whole neighbourhood is in no group yet, it becomes one.
  void start_groups() {
    for (int i = 0; i < a_.rows(); ++i) {
      bool alone = true, free = group_[at(i)] == kNone;
      for_strong(i, [&](int j, double) {
        alone = false;
        free = free && group_[at(j)] == kNone;
      });
      if (alone) group_[at(i)] = kAlone;
      if (alone || !free) continue;
      group_[at(i)] = count_;
      for_strong(i, [&](int j, double) { group_[at(j)] = count_; });
      ++count_;
    }
  }

  /// What is left between them goes to the neighbour that holds it most.
  void join_groups() {
    const std::vector<int> started = group_;
    for (int i = 0; i < a_.rows(); ++i) {
      if (group_[at(i)] != kNone) continue;
      double most = 0;
      for_strong(i, [&](int j, double v) {
        if (started[at(j)] < 0 || -v <= most) return;
        most = -v;
        group_[at(i)] = started[at(j)];
      });
    }
  }

  void gather_rest() {
    for (int i = 0; i < a_.rows(); ++i) {
      if (group_[at(i)] != kNone) continue;
      group_[at(i)] = count_;
      for_strong(i, [&](int j, double) {
        if (group_[at(j)] == kNone) group_[at(j)] = count_;
      });
      ++count_;
    }
  }

  const FullRows& a_;
  Eigen::VectorXd diagonal_;
  std::vector<int> group_;
  int count_ = 0;
};

}  // namespace

FullRows smoothed_groups(const FullRows& a) { return Grouping(a).smoothed(); }

}  // namespace thinspot::solver
