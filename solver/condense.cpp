#include "solver/condense.hpp"

#include "mesh/errors.hpp"
#include "solver/elimination_order.hpp"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <span>
#include <utility>
#include <vector>

namespace thinspot::solver {

namespace {

std::size_t at(int k) { return static_cast<std::size_t>(k); }

/// What rounding may leave of a pivot that is nothing. Sound ones keep the
/// share of the smallest triangles in their neighbours, far more.
constexpr double kRounding = 1e-12;

/// Electrode rows that are eliminated together: what a column does to one it
/// does to its neighbours, by the same indices.
constexpr int kTogether = 4;
using Group = Eigen::Array<double, kTogether, 1>;

/// Cholesky factor of the interior, row by row (T. A. Davis, Direct Methods for
/// Sparse Linear Systems, 2006, section 4.7), and what it leaves of the
/// electrodes' rows: these are taken through the interior's columns like the
/// others, and where they would go on among themselves, what has piled up is
/// the Schur complement.
class Elimination {
 public:
  Elimination(const SparseMatrix& stiffness, std::vector<int> order, int inside)
      : a_(stiffness),
        order_(std::move(order)),
        place_(order_.size()),
        inside_(inside),
        parent_(at(inside), -1),
        seen_(at(inside), -1),
        end_(at(inside)) {
    for (int k = 0; k < size(); ++k) place_[at(order_[at(k)])] = k;
    find_parents();
    find_columns();
    allocate();
    eliminate_inside();
    eliminate_electrodes();
    gather();
  }

  Eigen::MatrixXd schur;  ///< in the factor's order
  std::vector<int> begin, index;
  std::vector<double> value;

 private:
  int size() const { return static_cast<int>(order_.size()); }
  int on_metal() const { return size() - inside_; }
  int groups() const { return (on_metal() + kTogether - 1) / kTogether; }

  /// Calls use(place, value) for the entries of a row up to its diagonal.
  template <class Use>
  void for_row(int k, Use use) const {
    for (SparseMatrix::InnerIterator it(a_, order_[at(k)]); it; ++it) {
      const int j = place_[at(static_cast<int>(it.row()))];
      if (j <= k) use(j, it.value());
    }
  }

  /// Calls use(row) with the rows of a group.
  template <class Use>
  void for_group(int group, Use use) const {
    const int first = inside_ + group * kTogether;
    for (int k = first; k < std::min(first + kTogether, size()); ++k) use(k);
  }

  void find_parents() {
    std::vector<int> ancestor(at(inside_), -1);
    for (int k = 0; k < inside_; ++k)
      for_row(k, [&](int j, double) {
        while (j != -1 && j < k) {
          const int next = std::exchange(ancestor[at(j)], k);
          if (next == -1) parent_[at(j)] = k;
          j = next;
        }
      });
  }

  /// Adds the interior columns in which a row of the factor has entries and
  /// that were not seen since the last mark.
  void add_columns(int k, int mark) {
    for_row(k, [&](int j, double) {
      for (; j != -1 && j < inside_ && j != k && seen_[at(j)] != mark;
           j = parent_[at(j)]) {
        columns_.push_back(j);
        seen_[at(j)] = mark;
      }
    });
  }

  /// Of all rows inside, then of all groups; each column before its parent.
  void find_columns() {
    first_.push_back(0);
    const auto close = [&] {
      std::sort(columns_.begin() + first_.back(), columns_.end());
      first_.push_back(static_cast<int>(columns_.size()));
    };
    for (int k = 0; k < inside_; ++k) {
      seen_[at(k)] = k;
      add_columns(k, k);
      close();
    }
    for (int g = 0; g < groups(); ++g) {
      for_group(g, [&](int k) { add_columns(k, inside_ + g); });
      close();
    }
  }

  std::span<const int> columns_of(int k) const {
    return std::span(columns_).subspan(at(first_[at(k)]),
                                       at(first_[at(k) + 1] - first_[at(k)]));
  }

  void allocate() {
    std::vector<int> count(at(inside_), 1), met(at(inside_), 0);
    for (int k = 0; k < inside_; ++k)
      for (int j : columns_of(k)) ++count[at(j)];
    for (int g = 0; g < groups(); ++g)
      for (int j : columns_of(inside_ + g)) ++met[at(j)];
    const auto starts = [&](const std::vector<int>& counts) {
      std::vector<int> from(at(inside_) + 1, 0);
      std::inclusive_scan(counts.begin(), counts.end(), from.begin() + 1);
      return from;
    };
    begin = starts(count);
    begin_metal_ = starts(met);
    index.resize(at(begin.back()));
    value.resize(at(begin.back()));
    group_.resize(at(begin_metal_.back()));
    on_group_.resize(at(begin_metal_.back()));
  }

  void eliminate_inside() {
    std::copy(begin.begin(), begin.end() - 1, end_.begin());
    std::vector<double> x(at(inside_), 0.0);
    for (int k = 0; k < inside_; ++k) {
      for_row(k, [&](int j, double v) { x[at(j)] += v; });
      const double diagonal = x[at(k)];
      for (int j : columns_of(k)) {
        const double l = std::exchange(x[at(j)], 0.0) / value[at(begin[at(j)])];
        for (int p = begin[at(j)] + 1; p < end_[at(j)]; ++p)
          x[at(index[at(p)])] -= value[at(p)] * l;
        x[at(k)] -= l * l;
        put(end_[at(j)]++, k, l);
      }
      const double pivot = std::exchange(x[at(k)], 0.0);
      if (!(pivot > kRounding * diagonal))
        throw NoResultError(
            "the linear system is not definite: the mesh or the section is "
            "unsound");
      put(end_[at(k)]++, k, std::sqrt(pivot));
    }
  }

  void eliminate_electrodes() {
    schur = Eigen::MatrixXd::Zero(kTogether * groups(), kTogether * groups());
    std::vector<int> end(begin_metal_.begin(), begin_metal_.end() - 1);
    std::vector<Group> x(at(inside_), Group::Zero());
    for (int g = 0; g < groups(); ++g) {
      for_group(g, [&](int k) {
        const int lane = (k - inside_) % kTogether;
        for_row(k, [&](int j, double v) {
          if (j < inside_)
            x[at(j)](lane) += v;
          else
            schur(k - inside_, j - inside_) += v;
        });
      });
      for (int j : columns_of(inside_ + g)) {
        const Group l = x[at(j)] / value[at(begin[at(j)])];
        x[at(j)].setZero();
        for (int p = begin[at(j)] + 1; p < end_[at(j)]; ++p)
          x[at(index[at(p)])] -= value[at(p)] * l;
        const int own = end[at(j)]++;
        group_[at(own)] = g;
        on_group_[at(own)] = l;
        for (int p = begin_metal_[at(j)]; p <= own; ++p)
          schur.block<kTogether, kTogether>(kTogether * g,
                                            kTogether * group_[at(p)]) -=
              l.matrix() * on_group_[at(p)].matrix().transpose();
      }
    }
    schur.conservativeResize(on_metal(), on_metal());
    schur.triangularView<Eigen::StrictlyUpper>() =
        schur.triangularView<Eigen::StrictlyLower>().transpose();
  }

  /// The electrodes' entries behind those of the interior, column by column.
  void gather() {
    const std::size_t most = index.size() + at(kTogether) * group_.size();
    std::vector<int> from(at(inside_) + 1), row(most);
    std::vector<double> all(most);
    std::size_t n = 0;
    for (int j = 0; j < inside_; ++j) {
      for (int p = begin[at(j)]; p < end_[at(j)]; ++p, ++n) {
        row[n] = index[at(p)];
        all[n] = value[at(p)];
      }
      for (int p = begin_metal_[at(j)]; p < begin_metal_[at(j) + 1]; ++p)
        for (int lane = 0; lane < kTogether; ++lane) {
          if (on_group_[at(p)](lane) == 0) continue;
          row[n] = inside_ + kTogether * group_[at(p)] + lane;
          all[n++] = on_group_[at(p)](lane);
        }
      from[at(j) + 1] = static_cast<int>(n);
    }
    row.resize(n);
    all.resize(n);
    begin = std::move(from);
    index = std::move(row);
    value = std::move(all);
  }

  void put(int p, int row, double v) {
    index[at(p)] = row;
    value[at(p)] = v;
  }

  const SparseMatrix& a_;
  std::vector<int> order_, place_;  ///< mesh node of each place, and back
  int inside_;
  std::vector<int> parent_;  ///< in the interior's elimination tree
  std::vector<int> seen_;
  std::vector<int> first_, columns_;      ///< of each row inside, of each group
  std::vector<int> end_;                  ///< of each column so far
  std::vector<int> begin_metal_, group_;  ///< groups that each column meets
  std::vector<Group> on_group_;           ///< what it does to them
};

}  // namespace

Eigen::MatrixXd Interior::extend(const Eigen::MatrixXd& on_boundary) const {
  const auto n = static_cast<Eigen::Index>(node.size());
  const auto inside = n - static_cast<Eigen::Index>(boundary.size());
  // One row a node: all fields of a node lie together.
  Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor> x(
      n, on_boundary.cols());
  for (Eigen::Index k = inside; k < n; ++k)
    x.row(k) = on_boundary.row(boundary[static_cast<std::size_t>(k - inside)]);
  for (Eigen::Index k = inside - 1; k >= 0; --k) {
    const auto from =
        static_cast<std::size_t>(begin[static_cast<std::size_t>(k)]);
    const auto to =
        static_cast<std::size_t>(begin[static_cast<std::size_t>(k) + 1]);
    x.row(k).setZero();
    for (std::size_t p = from + 1; p < to; ++p)
      x.row(k) -= value[p] * x.row(index[p]);
    x.row(k) /= value[from];
  }
  Eigen::MatrixXd everywhere(n, on_boundary.cols());
  for (Eigen::Index k = 0; k < n; ++k)
    everywhere.row(node[static_cast<std::size_t>(k)]) = x.row(k);
  return everywhere;
}

Condensed condense(const SparseMatrix& stiffness, const std::vector<int>& row,
                   const std::vector<int>& order) {
  const auto n = static_cast<int>(stiffness.rows());
  const auto nb = static_cast<int>(
      std::count_if(row.begin(), row.end(), [](int r) { return r >= 0; }));
  Condensed result;
  Interior& interior = result.interior;
  interior.node = order;
  if (order.empty()) {
    std::vector<bool> on_metal(row.size());
    std::transform(row.begin(), row.end(), on_metal.begin(),
                   [](int r) { return r >= 0; });
    interior.node = elimination_order(stiffness, on_metal);
  }
  for (int k = n - nb; k < n; ++k) {
    interior.boundary.push_back(row[at(interior.node[at(k)])]);
    if (interior.boundary.back() < 0)
      throw NoResultError("the electrode nodes were not ordered last");
  }
  Elimination elimination(stiffness, interior.node, n - nb);
  result.on_electrodes.resize(nb, nb);
  for (int j = 0; j < nb; ++j)
    for (int k = 0; k < nb; ++k)
      result.on_electrodes(interior.boundary[at(k)], interior.boundary[at(j)]) =
          elimination.schur(k, j);
  interior.begin = std::move(elimination.begin);
  interior.index = std::move(elimination.index);
  interior.value = std::move(elimination.value);
  return result;
}

}  // namespace thinspot::solver
