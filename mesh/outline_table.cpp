#include "mesh/outline_table.hpp"

#include <charconv>
#include <cmath>

namespace thinspot::mesh {

namespace {

char separator_of(std::string_view line) {
  for (char c : {';', '\t', ','})
    if (line.find(c) != std::string_view::npos) return c;
  return ',';
}

std::vector<std::string> split(std::string_view line, char separator) {
  std::vector<std::string> cells;
  std::string cell;
  bool quoted = false, was_quoted = false;
  const auto finish = [&] {
    cells.push_back(was_quoted ? cell : std::string(trimmed(cell)));
    cell.clear();
    was_quoted = false;
  };
  for (std::size_t k = 0; k < line.size(); ++k) {
    const char c = line[k];
    if (quoted && c == '"') {
      // Doubled, it stands for itself.
      quoted = k + 1 < line.size() && line[k + 1] == '"';
      if (quoted) cell += line[++k];
    } else if (!quoted && c == '"' && trimmed(cell).empty()) {
      cell.clear();
      quoted = was_quoted = true;
    } else if (!quoted && c == separator) {
      finish();
    } else if (quoted || !was_quoted) {
      cell += c;
    }
  }
  finish();
  return cells;
}

}  // namespace

std::vector<TableRow> table_rows(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::vector<TableRow> rows;
  char separator = 0;
  for (int number = 1; !text.empty(); ++number) {
    const std::string_view line = take_line(text);
    if (trimmed(line).starts_with('#')) continue;
    TableRow row;
    row.line = number;
    if (!trimmed(line).empty()) {
      if (separator == 0) separator = separator_of(line);
      row.cells = split(line, separator);
    }
    // Spreadsheets end every row with the empty cells of their widest one.
    while (!row.cells.empty() && row.cells.back().empty()) row.cells.pop_back();
    rows.push_back(std::move(row));
  }
  return rows;
}

std::optional<double> plain_number(std::string_view text) {
  if (text.starts_with('+') && text.size() > 1 && text[1] != '-')
    text.remove_prefix(1);
  double value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() ||
      !std::isfinite(value))
    return std::nullopt;
  return value;
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::string_view take_line(std::string_view& rest) {
  const auto end = rest.find_first_of("\r\n");
  const std::string_view line = rest.substr(0, end);
  if (end == std::string_view::npos) {
    rest = {};
    return line;
  }
  const bool both = rest.substr(end).starts_with("\r\n");
  rest.remove_prefix(end + (both ? 2 : 1));
  return line;
}

}  // namespace thinspot::mesh
