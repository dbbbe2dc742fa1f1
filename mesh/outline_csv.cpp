#include "mesh/errors.hpp"
#include "mesh/lower_case.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_table.hpp"
#include "mesh/outline_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace thinspot::mesh {

namespace {

/// Which column is which; -1: there is none.
struct Columns {
  int x = -1, y = -1, bulge = -1, face = -1;
  std::optional<double> metres_per_unit;
};

struct Vertex {
  Point at;
  double bulge = 0;
  std::string face;
};

[[noreturn]] void refuse(int line, const std::string& wrong,
                         const std::string& mend) {
  throw InputError("file", fmt::format("line {}: {}", line, wrong), mend);
}

/// Unit in the name of a coordinate's column, as in "x_mm", "x [mm]" or
/// "x (mm)"; empty for a bare "x"; nothing where it is another column.
std::optional<std::string> unit_in(const std::string& header, char axis) {
  std::string unit;
  for (char c : header)
    if (c != ' ') unit += c;
  if (unit.empty() || unit.front() != axis) return std::nullopt;
  unit.erase(0, 1);
  if (unit.empty()) return unit;
  if (unit.front() == '_') return unit.substr(1);
  const bool brackets = (unit.front() == '[' && unit.back() == ']') ||
                        (unit.front() == '(' && unit.back() == ')');
  if (!brackets) return std::nullopt;
  return unit.substr(1, unit.size() - 2);
}

Columns read_header(const TableRow& row) {
  Columns columns;
  std::optional<std::string> units[2];
  for (std::size_t k = 0; k < row.cells.size(); ++k) {
    const std::string name = lower_case(row.cells[k]);
    const int here = static_cast<int>(k);
    int* place = nullptr;
    if (const auto unit = unit_in(name, 'x')) {
      place = &columns.x;
      units[0] = unit;
    } else if (const auto y_unit = unit_in(name, 'y')) {
      place = &columns.y;
      units[1] = y_unit;
    } else if (name == "bulge") {
      place = &columns.bulge;
    } else if (name == "face") {
      place = &columns.face;
    } else {
      refuse(row.line,
             "\"" + clean_name(row.cells[k]) + "\" is not a column's name",
             "a header row of x_mm, y_mm and, if wanted, bulge and face");
    }
    if (*place >= 0)
      refuse(row.line, "names \"" + clean_name(row.cells[k]) + "\" twice",
             "each column once");
    *place = here;
  }
  if (columns.x < 0 || columns.y < 0)
    refuse(row.line,
           "names no column for " + std::string(columns.x < 0 ? "x" : "y"),
           "a header row of x_mm, y_mm and, if wanted, bulge and face");
  if (*units[0] != *units[1])
    refuse(row.line, "gives x and y different units", "one unit for both");
  if (units[0]->empty()) return columns;
  columns.metres_per_unit = metres_of_unit(*units[0]);
  if (!columns.metres_per_unit)
    refuse(row.line,
           "\"" + clean_name(*units[0]) +
               "\" is not a unit known "
               "here",
           "one of " + known_units());
  return columns;
}

double number_in(const TableRow& row, int column, const char* what) {
  const std::string& cell = row.cells[static_cast<std::size_t>(column)];
  if (const auto value = plain_number(cell)) return *value;
  std::string with_point = cell;
  std::replace(with_point.begin(), with_point.end(), ',', '.');
  if (with_point != cell && plain_number(with_point))
    refuse(row.line, "\"" + cell + "\" has a decimal comma",
           "a point: " + with_point);
  refuse(row.line,
         fmt::format("\"{}\" is not a number for {}", clean_name(cell), what),
         "finite numbers, as in 12.5");
}

Vertex read_vertex(const TableRow& row, const Columns& columns) {
  Vertex v;
  v.at = {number_in(row, columns.x, "x"), number_in(row, columns.y, "y")};
  const auto filled = [&](int column) {
    return column >= 0 && !row.cells[static_cast<std::size_t>(column)].empty();
  };
  if (filled(columns.bulge)) v.bulge = number_in(row, columns.bulge, "bulge");
  if (filled(columns.face))
    v.face = clean_name(row.cells[static_cast<std::size_t>(columns.face)]);
  return v;
}

void add_loop(Drawing& drawing, std::vector<Vertex>& loop, int line) {
  if (loop.empty()) return;
  // Said twice, the first point is no piece of its own.
  if (loop.size() > 1 && loop.front().at == loop.back().at) loop.pop_back();
  if (loop.size() < 2)
    refuse(line, "ends a loop of one point",
           "three points or more, or two "
           "with bulges");
  drawing.sets.emplace_back();
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const Vertex& next = loop[(k + 1) % loop.size()];
    drawing.add(Curve{loop[k].at, next.at, loop[k].bulge, loop[k].face});
  }
  loop.clear();
}

}  // namespace

Drawing read_csv_drawing(std::string_view text) {
  const std::vector<TableRow> rows = table_rows(text);
  const auto first =
      std::find_if(rows.begin(), rows.end(),
                   [](const TableRow& r) { return !r.cells.empty(); });
  if (first == rows.end())
    throw InputError("file", "is empty",
                     "a header row (x_mm,y_mm) and one row for each corner");
  const TableRow& header = *first;
  if (plain_number(header.cells.front()))
    refuse(header.line, "holds numbers where the columns' names belong",
           "a header row first, as in x_mm,y_mm");
  const Columns columns = read_header(header);
  Drawing drawing;
  drawing.metres_per_unit = columns.metres_per_unit;
  std::vector<Vertex> loop;
  for (auto at = first + 1; at != rows.end(); ++at) {
    TableRow row = *at;
    if (row.cells.empty() || row.cells == header.cells) {
      add_loop(drawing, loop, row.line);
      continue;
    }
    if (row.cells.size() > header.cells.size())
      refuse(row.line,
             fmt::format("has {} cells where the header has {}",
                         row.cells.size(), header.cells.size()),
             "one cell for each column, numbers with a decimal point");
    row.cells.resize(header.cells.size());
    loop.push_back(read_vertex(row, columns));
  }
  add_loop(drawing, loop, rows.back().line);
  if (drawing.sets.empty())
    throw InputError("file", "holds no points",
                     "one row for each corner below the header");
  return drawing;
}

}  // namespace thinspot::mesh
