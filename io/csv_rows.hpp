#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Rows of comma-separated values, one after another (RFC 4180: cells in quotes
/// may hold commas, line breaks and, doubled, quotes). Nothing is copied but
/// the cells of one row.
class CsvRows {
 public:
  /// @param text  has to outlive this
  explicit CsvRows(std::string_view text) : text_(text) {}

  /// The next row that is not empty; false at the end.
  /// @throws InputError with key "line N" where a quote is never closed, or
  ///         text follows one
  bool next(std::vector<std::string>& cells);

  /// Of the row read last, from 1.
  int line() const { return line_; }

 private:
  std::string cell();

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 0, next_line_ = 1;
};

/// The text as one cell: quoted where a comma, a quote or a line break would
/// split the row.
std::string csv_cell(const std::string& text);

}  // namespace thinspot::io
