#pragma once

#include "io/units.hpp"
#include "mesh/outline_table.hpp"
#include "solver/case.hpp"
#include "solver/reading.hpp"

#include <map>
#include <string>
#include <string_view>
#include <vector>

// The pieces that readings_file.cpp reads a line with.
namespace thinspot::io {

/// A sentence that a cell is refused with.
struct RefusedCell {
  std::string column, wrong, mend;
};
[[noreturn]] void refuse_cell(std::string column, std::string wrong,
                              std::string mend);

/// What a reading of a kind may be; beyond it a unit was mistaken.
struct Reasonable {
  Dimension dimension = Dimension::fraction;
  double least = 0, most = 0;  ///< [SI]
};
Reasonable reasonable(solver::Reading::Of of);

/// @throws RefusedCell
solver::Quantity cell_quantity(const std::string& column, std::string_view text,
                               Dimension dimension);

/// Without a tolerance, within bounds.
/// @throws RefusedCell
double cell_value(const std::string& column, std::string_view text,
                  Dimension dimension, double least, double most);

/// One line, by the names of the columns.
class ReadingRow {
 public:
  /// @throws RefusedCell where cells are too many or no plain text.
  ReadingRow(const std::vector<std::string>& names, const mesh::TableRow& row);

  /// "" where the line has no such cell.
  std::string operator()(const std::string& column) const;
  int line() const { return line_; }

 private:
  int line_;
  std::map<std::string, std::string> cells_;
};

/// What was read and how sure it is, by what was said or by the method.
/// @throws RefusedCell
void read_reading_value(const ReadingRow& row, solver::Reading& reading);

/// Where it was read, and in what set-up.
/// @throws RefusedCell
void read_reading_place(const ReadingRow& row, solver::Reading& reading);

}  // namespace thinspot::io
