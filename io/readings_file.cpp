#include "io/readings_file.hpp"

#include "io/document.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/reading_cells.hpp"
#include "mesh/errors.hpp"
#include "mesh/outline_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace thinspot::io {

namespace {

using solver::Reading;
using In = Reading::In;
using Of = Reading::Of;

constexpr std::size_t kMostReadings = 1000;

const std::vector<std::string> columns = {
    "what", "reading", "plus_minus", "at", "method", "with", "note"};

/// The words of the first column.
struct What {
  std::string_view word;
  In in;
  std::vector<Of> of;
};
const std::vector<What>& whats() {
  static const std::vector<What> all = {
      {"voltage", In::tank, {Of::voltage}},
      {"current", In::tank, {Of::current}},
      {"mass", In::tank, {Of::mass}},
      {"thickness", In::tank, {Of::thickness}},
      {"panel", In::panel, {Of::thickness, Of::voltage, Of::mass}},
      {"two cathodes", In::two_cathodes, {Of::ratio}},
  };
  return all;
}

const What& what_of(const ReadingRow& row) {
  const std::string word = row("what");
  std::vector<std::string> words;
  for (const What& w : whats()) {
    if (w.word == word) return w;
    words.emplace_back(w.word);
  }
  const auto near = nearest(word, words);
  refuse_cell(
      "what",
      word.empty() ? "is left out" : in_quotes(word) + " is no kind of reading",
      near ? fmt::format("is \"{}\" meant?", *near) : with_or(words));
}

/// Which of several kinds the reading's unit is of.
Of kind_of(const What& what, const std::string& text) {
  if (what.of.size() == 1) return what.of.front();
  for (const Of of : what.of) try {
      parse_quantity(text, reasonable(of).dimension);
      return of;
    } catch (const InputError&) {
      // Of another dimension, or of none: told below.
    }
  refuse_cell("reading", in_quotes(text) + " is none that a panel has",
              "a thickness, a voltage or a mass, as in 8 um");
}

Reading reading_in(const ReadingRow& row) {
  const What& what = what_of(row);
  Reading r;
  r.line = row.line();
  r.in = what.in;
  r.of = kind_of(what, row("reading"));
  r.note = row("note");
  read_reading_value(row, r);
  read_reading_place(row, r);
  return r;
}

std::vector<std::string> names_in(const mesh::TableRow& header) {
  std::vector<std::string> names;
  for (const std::string& cell : header.cells) {
    const auto known = std::find(columns.begin(), columns.end(), cell);
    if (known == columns.end()) {
      const auto near = nearest(cell, columns);
      refuse_cell(
          "", in_quotes(cell) + " is not a column's name",
          near ? fmt::format("is \"{}\" meant?", *near) : with_or(columns));
    }
    if (std::find(names.begin(), names.end(), cell) != names.end())
      refuse_cell(cell, "is named twice", "each column once");
    names.push_back(cell);
  }
  for (const char* needed : {"what", "reading"})
    if (std::find(names.begin(), names.end(), needed) == names.end())
      refuse_cell("", fmt::format("names no column \"{}\"", needed),
                  "the first line names the columns: " + with_or(columns));
  return names;
}

}  // namespace

std::vector<Reading> read_readings_text(std::string_view text,
                                        const std::filesystem::path& file) {
  std::vector<Problem> problems;
  const auto found = [&](int line, const RefusedCell& r) {
    problems.push_back(
        {r.column, r.wrong, r.mend, fmt::format("{}:{}", file.string(), line)});
  };
  std::vector<mesh::TableRow> rows = mesh::table_rows(text);
  std::erase_if(rows, [](const auto& row) { return row.cells.empty(); });
  if (rows.size() < 2)
    throw InputError(
        {{"", "holds no readings",
          "a line of names (what,reading,at) and a line for each reading",
          file.string()}});
  std::vector<Reading> readings;
  try {
    if (rows.size() > kMostReadings + 1)
      refuse_cell("", fmt::format("holds {} readings", rows.size() - 1),
                  fmt::format("at most {}", kMostReadings));
    const std::vector<std::string> names = names_in(rows.front());
    for (std::size_t k = 1; k < rows.size(); ++k) try {
        readings.push_back(reading_in(ReadingRow(names, rows[k])));
      } catch (const RefusedCell& refused) {
        found(rows[k].line, refused);
      }
  } catch (const RefusedCell& refused) {
    found(rows.front().line, refused);
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  return readings;
}

std::vector<Reading> read_readings(const std::filesystem::path& file) {
  return read_readings_text(document_text(file, "a table of readings"), file);
}

}  // namespace thinspot::io
