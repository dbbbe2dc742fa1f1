#pragma once

#include "solver/lanes.hpp"

#include <Eigen/SparseCore>

#include <algorithm>
#include <cstddef>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// Rows 0..rows()-1 of a symmetric matrix, of each what stands right of the
/// diagonal: half of what a full matrix takes. Columns ascend.
class SymmetricRows {
 public:
  SymmetricRows() = default;

  /// All entries that there will be, each 0.
  /// @param for_each_pair  calls its argument with the row and column of every
  ///                       entry off the diagonal, in either order and as often
  ///                       as it likes; it is called twice
  template <class Pairs>
  SymmetricRows(int rows, Pairs for_each_pair) : diagonal_(at(rows), 0.0) {
    begin_.assign(at(rows) + 1, 0);
    for_each_pair([&](int i, int j) { ++begin_[at(std::min(i, j)) + 1]; });
    for (std::size_t i = 0; i < at(rows); ++i) begin_[i + 1] += begin_[i];
    column_.resize(at(begin_.back()));
    std::vector<int> end(begin_.begin(), begin_.end() - 1);
    for_each_pair([&](int i, int j) {
      column_[at(end[at(std::min(i, j))]++)] = std::max(i, j);
    });
    drop_repeated();
  }

  /// The first rows of another.
  SymmetricRows first(int rows) const;

  int rows() const { return static_cast<int>(diagonal_.size()); }

  /// Adds to the entries (i, j) and (j, i), which are one.
  /// @pre  the entry is there
  void add(int i, int j, double value);

  /// Makes rows and columns those of the identity.
  /// @pre    none of the rows that are left holds a column that is cleared
  ///         beyond the last of these
  /// @param  held  of each row
  void clear(const std::vector<bool>& held);

  double diagonal(int i) const { return diagonal_[at(i)]; }

  /// Calls use(column, value) for what stands right of the diagonal.
  template <class Use>
  void right_of_diagonal(int i, Use use) const {
    const int end = begin_[at(i) + 1];
    for (int k = begin_[at(i)]; k < end; ++k)
      use(column_[at(k)], value_[at(k)]);
  }

 private:
  static std::size_t at(int k) { return static_cast<std::size_t>(k); }
  void drop_repeated();

  std::vector<int> begin_, column_;
  std::vector<double> value_, diagonal_;
};

/// A symmetric matrix whose first rows are its own while the others may be
/// shared with other ones: those that differ only there.
struct BorderedRows {
  SymmetricRows border;
  std::shared_ptr<const SymmetricRows> body;  ///< all rows, the first not read

  int size() const { return body->rows(); }
  double diagonal(int i) const {
    return (i < border.rows() ? border : *body).diagonal(i);
  }

  /// Calls use(row, rows it stands in) from the first row to the last.
  template <class Use>
  void ascending(Use use) const {
    const int first = border.rows(), n = size();
    for (int i = 0; i < first; ++i) use(i, border);
    for (int i = first; i < n; ++i) use(i, *body);
  }
  template <class Use>
  void descending(Use use) const {
    const int first = border.rows();
    for (int i = size(); i-- > first;) use(i, *body);
    for (int i = first; i-- > 0;) use(i, border);
  }
};

/// y = a x
/// @returns  x . y
Lanes multiply(const BorderedRows& a, const LaneVector& x, LaneVector& y);

/// Square root of the sum of all entries' squares.
double frobenius_norm(const BorderedRows& a);

/// x = (D + L)^-1 b, and rest = b - a x: a sweep of Gauss and Seidel from
/// nothing.
void sweep_forward(const BorderedRows& a, const LaneVector& b, LaneVector& x,
                   LaneVector& rest);

/// x becomes (D + U)^-1 (b - L x): the sweep back, which makes of both a
/// symmetric smoother.
/// @param room  overwritten
/// @returns     b . x
Lanes sweep_back(const BorderedRows& a, const LaneVector& b, LaneVector& x,
                 LaneVector& room);

/// Both triangles.
Eigen::SparseMatrix<double, Eigen::RowMajor> both_triangles(
    const BorderedRows& a);

/// The upper triangle's rows; of `a`, none but those to the right are read.
SymmetricRows upper_triangle(
    const Eigen::SparseMatrix<double, Eigen::RowMajor>& a);

}  // namespace thinspot::solver
