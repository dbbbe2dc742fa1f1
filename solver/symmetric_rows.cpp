#include "solver/symmetric_rows.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace thinspot::solver {

namespace {

using Full = Eigen::SparseMatrix<double, Eigen::RowMajor>;

std::size_t at(int k) { return static_cast<std::size_t>(k); }

}  // namespace

void SymmetricRows::drop_repeated() {
  int kept = 0, from = 0;
  for (std::size_t i = 0; i < diagonal_.size(); ++i) {
    const int to = begin_[i + 1];
    std::sort(column_.begin() + from, column_.begin() + to);
    const auto end = std::unique(column_.begin() + from, column_.begin() + to);
    std::copy(column_.begin() + from, end, column_.begin() + kept);
    kept += static_cast<int>(end - (column_.begin() + from));
    begin_[i + 1] = kept;
    from = to;
  }
  column_.resize(at(kept));
  column_.shrink_to_fit();
  value_.assign(at(kept), 0.0);
}

SymmetricRows SymmetricRows::first(int rows) const {
  SymmetricRows part;
  const int entries = begin_[at(rows)];
  part.begin_.assign(begin_.begin(), begin_.begin() + rows + 1);
  part.column_.assign(column_.begin(), column_.begin() + entries);
  part.value_.assign(value_.begin(), value_.begin() + entries);
  part.diagonal_.assign(diagonal_.begin(), diagonal_.begin() + rows);
  return part;
}

void SymmetricRows::add(int i, int j, double value) {
  if (i == j) {
    diagonal_[at(i)] += value;
    return;
  }
  const auto [row, column] = std::minmax(i, j);
  const auto from = column_.begin() + begin_[at(row)],
             to = column_.begin() + begin_[at(row) + 1];
  const auto found = std::lower_bound(from, to, column);
  if (found == to || *found != column)
    throw std::logic_error("there is no such entry in the symmetric rows");
  value_[static_cast<std::size_t>(found - column_.begin())] += value;
}

void SymmetricRows::clear(const std::vector<bool>& held) {
  const int count = static_cast<int>(held.size());
  for (int i = 0; i < rows(); ++i) {
    const bool here = i < count && held[at(i)];
    if (here) diagonal_[at(i)] = 1;
    for (int k = begin_[at(i)]; k < begin_[at(i) + 1]; ++k) {
      const int j = column_[at(k)];
      if (here || (j < count && held[at(j)])) value_[at(k)] = 0;
    }
  }
}

Lanes multiply(const BorderedRows& a, const LaneVector& x, LaneVector& y) {
  Lanes dot = Lanes::Zero();
  std::fill(y.begin(), y.end(), Lanes::Zero());
  a.ascending([&](int i, const SymmetricRows& rows) {
    const Lanes own = x[at(i)];
    Lanes sum = rows.diagonal(i) * own;
    rows.right_of_diagonal(i, [&](int j, double v) {
      sum += v * x[at(j)];
      y[at(j)] += v * own;
    });
    y[at(i)] += sum;
    dot += own * y[at(i)];
  });
  return dot;
}

double frobenius_norm(const BorderedRows& a) {
  double sum = 0;
  a.ascending([&](int i, const SymmetricRows& rows) {
    sum += rows.diagonal(i) * rows.diagonal(i);
    rows.right_of_diagonal(i, [&](int, double v) { sum += 2 * v * v; });
  });
  return std::sqrt(sum);
}

void sweep_forward(const BorderedRows& a, const LaneVector& b, LaneVector& x,
                   LaneVector& rest) {
  std::copy(b.begin(), b.end(), rest.begin());
  a.ascending([&](int i, const SymmetricRows& rows) {
    const Lanes own = rest[at(i)] / rows.diagonal(i);
    x[at(i)] = own;
    rows.right_of_diagonal(i, [&](int j, double v) { rest[at(j)] -= v * own; });
  });
  a.ascending([&](int i, const SymmetricRows& rows) {
    Lanes sum = Lanes::Zero();
    rows.right_of_diagonal(i, [&](int j, double v) { sum -= v * x[at(j)]; });
    rest[at(i)] = sum;
  });
}

Lanes sweep_back(const BorderedRows& a, const LaneVector& b, LaneVector& x,
                 LaneVector& room) {
  std::copy(b.begin(), b.end(), room.begin());
  a.ascending([&](int i, const SymmetricRows& rows) {
    const Lanes own = x[at(i)];
    rows.right_of_diagonal(i, [&](int j, double v) { room[at(j)] -= v * own; });
  });
  Lanes dot = Lanes::Zero();
  a.descending([&](int i, const SymmetricRows& rows) {
    Lanes sum = room[at(i)];
    rows.right_of_diagonal(i, [&](int j, double v) { sum -= v * x[at(j)]; });
    x[at(i)] = sum / rows.diagonal(i);
    dot += b[at(i)] * x[at(i)];
  });
  return dot;
}

Full both_triangles(const BorderedRows& a) {
  const int n = a.size();
  Eigen::VectorXi count = Eigen::VectorXi::Ones(n);
  a.ascending([&](int i, const SymmetricRows& rows) {
    rows.right_of_diagonal(i, [&](int j, double) {
      ++count(i);
      ++count(j);
    });
  });
  Full full(n, n);
  full.reserve(count);
  // Row by row: what comes from the left has been put there by then.
  a.ascending([&](int i, const SymmetricRows& rows) {
    full.insert(i, i) = rows.diagonal(i);
    rows.right_of_diagonal(i, [&](int j, double v) {
      full.insert(i, j) = v;
      full.insert(j, i) = v;
    });
  });
  full.makeCompressed();
  return full;
}

SymmetricRows upper_triangle(const Full& a) {
  const int n = static_cast<int>(a.rows());
  SymmetricRows rows(n, [&](auto use) {
    for (int i = 0; i < n; ++i)
      for (Full::InnerIterator it(a, i); it; ++it)
        if (it.col() > i) use(i, static_cast<int>(it.col()));
  });
  for (int i = 0; i < n; ++i)
    for (Full::InnerIterator it(a, i); it; ++it)
      if (it.col() >= i) rows.add(i, static_cast<int>(it.col()), it.value());
  return rows;
}

}  // namespace thinspot::solver
