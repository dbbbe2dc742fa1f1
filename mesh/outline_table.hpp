#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::mesh {

/// A line of a table in a text file.
struct TableRow {
  int line = 0;  ///< from 1
  /// Without the spaces around them, and without empty ones at the end: none
  /// on a blank line.
  std::vector<std::string> cells;
};

/// Lines of text as rows. What parts the cells is a semicolon, a tab or a
/// comma, whichever of them, in this order, the first row has. Cells may stand
/// in double quotes; lines that begin with # are left out, and so are a mark
/// of the encoding in front and the carriage returns.
std::vector<TableRow> table_rows(std::string_view text);

/// A finite number with a decimal point, whatever the locale.
std::optional<double> plain_number(std::string_view text);

/// Without spaces and tabs at both ends.
std::string_view trimmed(std::string_view text);

/// The text up to the next line feed or carriage return, which goes with it.
std::string_view take_line(std::string_view& rest);

}  // namespace thinspot::mesh
