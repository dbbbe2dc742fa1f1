#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace thinspot::viz {

/// A grid of values as it is drawn: where there are too many points for a cell
/// each, some share one.
struct CellGrid {
  std::size_t columns = 0, rows = 0;  ///< of cells
  std::size_t across = 1, down = 1;   ///< points of a full cell, along x and y
  /// Row by row: the mean of the points that have a result; NaN: none has.
  std::vector<double> values;

  double at(std::size_t column, std::size_t row) const {
    return values[row * columns + column];
  }
};

/// At most so many cells a side. Points beyond the end of `values` have no
/// result.
CellGrid cells_of(std::size_t columns, std::size_t rows,
                  const std::vector<double>& values, std::size_t most);

/// A straight run of edges between cells that meet a condition and cells that
/// do not.
struct CellBorder {
  bool upright = false;
  std::size_t line = 0;          ///< before this column (upright) or row
  std::size_t from = 0, to = 0;  ///< rows (upright) or columns, `to` excluded
  bool met_beyond = false;       ///< the higher column or row meets it
};

/// All of them; between a cell without a result and another there is none.
std::vector<CellBorder> borders_of(const CellGrid& grid,
                                   const std::function<bool(double)>& met);

/// Neighbours in a row that look alike.
struct CellRun {
  std::size_t row = 0;
  std::size_t from = 0, to = 0;  ///< columns, `to` excluded
  int look = 0;
};

/// @param look  of a cell's value
/// @param join  else each cell is a run of its own
std::vector<CellRun> runs_of(const CellGrid& grid,
                             const std::function<int(double)>& look, bool join);

}  // namespace thinspot::viz
