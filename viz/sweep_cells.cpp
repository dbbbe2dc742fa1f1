#include "viz/sweep_cells.hpp"

#include "viz/sweep_words.hpp"

#include <algorithm>
#include <limits>

namespace thinspot::viz {

namespace {

std::size_t parts(std::size_t whole, std::size_t part) {
  return (whole + part - 1) / part;
}

/// 1: met, 0: not, -1: no result.
int side_of(double value, const std::function<bool(double)>& met) {
  return !is_result(value) ? -1 : met(value) ? 1 : 0;
}

/// Edges along one line, joined; `low` and `high` are the two sides of its
/// k-th edge.
void add_line(std::vector<CellBorder>& borders, bool upright, std::size_t line,
              std::size_t count, const std::function<int(std::size_t)>& low,
              const std::function<int(std::size_t)>& high) {
  for (std::size_t k = 0; k < count; ++k) {
    const int before = low(k), beyond = high(k);
    if (before < 0 || beyond < 0 || before == beyond) continue;
    if (!borders.empty()) {
      CellBorder& last = borders.back();
      if (last.upright == upright && last.line == line && last.to == k &&
          last.met_beyond == (beyond > 0)) {
        last.to = k + 1;
        continue;
      }
    }
    borders.push_back({upright, line, k, k + 1, beyond > 0});
  }
}

}  // namespace

CellGrid cells_of(std::size_t columns, std::size_t rows,
                  const std::vector<double>& values, std::size_t most) {
  CellGrid grid;
  grid.across = std::max<std::size_t>(1, parts(columns, most));
  grid.down = std::max<std::size_t>(1, parts(rows, most));
  grid.columns = parts(columns, grid.across);
  grid.rows = parts(rows, grid.down);
  std::vector<double> sums(grid.columns * grid.rows, 0);
  std::vector<double> counts(sums.size(), 0);
  for (std::size_t row = 0; row < rows; ++row)
    for (std::size_t column = 0; column < columns; ++column) {
      const std::size_t k = row * columns + column;
      if (k >= values.size() || !is_result(values[k])) continue;
      const std::size_t cell =
          row / grid.down * grid.columns + column / grid.across;
      sums[cell] += values[k];
      ++counts[cell];
    }
  for (std::size_t cell = 0; cell < sums.size(); ++cell)
    grid.values.push_back(counts[cell] > 0
                              ? sums[cell] / counts[cell]
                              : std::numeric_limits<double>::quiet_NaN());
  return grid;
}

std::vector<CellBorder> borders_of(const CellGrid& grid,
                                   const std::function<bool(double)>& met) {
  const auto side = [&](std::size_t column, std::size_t row) {
    return side_of(grid.at(column, row), met);
  };
  std::vector<CellBorder> borders;
  for (std::size_t column = 1; column < grid.columns; ++column)
    add_line(
        borders, true, column, grid.rows,
        [&](std::size_t row) { return side(column - 1, row); },
        [&](std::size_t row) { return side(column, row); });
  for (std::size_t row = 1; row < grid.rows; ++row)
    add_line(
        borders, false, row, grid.columns,
        [&](std::size_t column) { return side(column, row - 1); },
        [&](std::size_t column) { return side(column, row); });
  return borders;
}

std::vector<CellRun> runs_of(const CellGrid& grid,
                             const std::function<int(double)>& look,
                             bool join) {
  std::vector<CellRun> runs;
  for (std::size_t row = 0; row < grid.rows; ++row)
    for (std::size_t column = 0; column < grid.columns; ++column) {
      const int own = look(grid.at(column, row));
      if (join && column > 0 && runs.back().look == own)
        runs.back().to = column + 1;
      else
        runs.push_back({row, column, column + 1, own});
    }
  return runs;
}

}  // namespace thinspot::viz
