#include "io/reading_cells.hpp"

#include "io/quote.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <utility>

namespace thinspot::io {

namespace {

using Of = solver::Reading::Of;

constexpr std::size_t kLongestText = 200;  // characters of a cell

}  // namespace

Reasonable reasonable(Of of) {
  switch (of) {
    case Of::voltage: return {Dimension::voltage, 1e-6, 1000};
    case Of::current: return {Dimension::current, 1e-6, 1e5};
    case Of::mass: return {Dimension::mass, 1e-9, 1000};
    case Of::thickness: return {Dimension::length, 1e-9, 0.1};
    case Of::ratio: break;
  }
  return {Dimension::fraction, 1e-3, 1e3};
}

[[noreturn]] void refuse_cell(std::string column, std::string wrong,
                              std::string mend) {
  throw RefusedCell{std::move(column), std::move(wrong), std::move(mend)};
}

solver::Quantity cell_quantity(const std::string& column, std::string_view text,
                               Dimension dimension) {
  try {
    const ParsedQuantity read = parse_quantity(text, dimension);
    return {read.value, read.plus_minus};
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    refuse_cell(column, p.wrong, p.mend);
  }
}

double cell_value(const std::string& column, std::string_view text, Dimension d,
                  double least, double most) {
  const solver::Quantity q = cell_quantity(column, text, d);
  if (q.plus_minus != 0 || !(q.value >= least) || !(q.value <= most))
    refuse_cell(column, in_quotes(text) + " is out of range",
                fmt::format("one value, as in {}", dimension_example(d)));
  return q.value;
}

ReadingRow::ReadingRow(const std::vector<std::string>& names,
                       const mesh::TableRow& row)
    : line_(row.line) {
  if (row.cells.size() > names.size())
    refuse_cell("",
                fmt::format("has {} cells under {} names", row.cells.size(),
                            names.size()),
                "a cell that holds a comma stands in double quotes");
  for (std::size_t k = 0; k < row.cells.size(); ++k) {
    if (!row.cells[k].empty() && !is_printable(row.cells[k], kLongestText))
      refuse_cell(names[k], in_quotes(row.cells[k]) + " is no plain text",
                  "at most 200 characters, in UTF-8");
    cells_[names[k]] = row.cells[k];
  }
}

std::string ReadingRow::operator()(const std::string& column) const {
  const auto found = cells_.find(column);
  return found == cells_.end() ? "" : found->second;
}

}  // namespace thinspot::io
