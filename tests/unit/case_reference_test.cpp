// docs/case_file.md and the reader's table of keys say the same.
#include "io/case_keys.hpp"
#include "io/table_reader.hpp"
#include "mesh/shape.hpp"
#include "tests/unit/docs_tables.hpp"

#include <fmt/format.h>
#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <map>
#include <set>
#include <string>
#include <vector>

using namespace thinspot;
using Catch::Matchers::Contains;
using thinspot::tests::cells_of;

namespace {

/// A row of a table of the page.
struct Row {
  std::vector<std::string> cells;
  std::string key;  ///< the cell that names it, without its marks
  bool bold = false;
};

std::string without_marks(const std::string& cell) {
  std::string plain;
  for (char c : cell)
    if (c != '*' && c != '`') plain += c;
  return plain;
}

/// Rows whose cell number `column` names a key in backquotes, by heading.
std::map<std::string, std::vector<Row>> rows_by_heading(std::size_t column) {
  std::map<std::string, std::vector<Row>> rows;
  std::ifstream in(THINSPOT_SOURCE_DIR "/docs/case_file.md");
  REQUIRE(in);
  std::string heading;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("## ")) heading = line.substr(3);
    if (!line.starts_with("|")) continue;
    Row row{cells_of(line), "", false};
    if (row.cells.size() <= column) continue;
    const std::string& cell = row.cells[column];
    if (cell.find('`') == std::string::npos) continue;
    row.key = without_marks(cell);
    row.bold = cell.starts_with("**");
    rows[heading].push_back(row);
  }
  return rows;
}

std::string heading_of(const io::TableInfo& table) {
  const std::string name(table.name);
  if (name.empty()) return "Top of the file";
  return table.repeated ? fmt::format("[[{}]]", name)
                        : fmt::format("[{}]", name);
}

bool takes_limits(io::Form form) {
  switch (form) {
    case io::Form::factor:
    case io::Form::value:
    case io::Form::quantity:
    case io::Form::quantities:
    case io::Form::values:
    case io::Form::point:
    case io::Form::points:
    case io::Form::value_pair: return true;
    default: return false;
  }
}

/// Words of which the second cell has one, by what the key takes; empty: that
/// is told by its range or its choices.
std::vector<std::string> kind_words(io::Form form) {
  switch (form) {
    case io::Form::text: return {"text", "name of a shape"};
    case io::Form::name: return {"text"};
    case io::Form::flag: return {"true or false", "`true` `false`"};
    case io::Form::point:
    case io::Form::value_pair: return {"two of "};
    case io::Form::points: return {"list of points, each two of "};
    case io::Form::texts: return {"list of texts", "list of two texts"};
    case io::Form::names: return {"list of names"};
    case io::Form::table: return {"table"};
    default: return {};
  }
}

/// Checks a row of the page against the key that it is about.
void check_row(const Row& row, const io::KeyInfo& key) {
  CHECK(row.bold == key.required);
  REQUIRE(row.cells.size() >= 3);
  const std::string& takes = row.cells[1];
  if (takes_limits(key.form))
    CHECK_THAT(takes, Contains(io::range_text(key.limits)));
  const auto kinds = kind_words(key.form);
  CAPTURE(takes);
  CHECK((kinds.empty() ||
         std::any_of(kinds.begin(), kinds.end(), [&](const std::string& word) {
           return takes.starts_with(word);
         })));
  CHECK((takes.find("\u00B1") != std::string::npos) ==
        (key.form == io::Form::quantity || key.form == io::Form::quantities));
  for (std::string_view word : key.choices)
    CHECK_THAT(takes, Contains(fmt::format("`{}`", word)));
}

}  // namespace

TEST_CASE("Every key is in the reference, and no other", "[docs]") {
  const auto rows = rows_by_heading(0);
  for (const io::TableInfo& table : io::case_tables()) {
    CAPTURE(heading_of(table));
    std::set<std::string> known, documented;
    for (const io::KeyInfo& key : table.keys) known.emplace(key.name);
    REQUIRE(rows.contains(heading_of(table)));
    for (const Row& row : rows.at(heading_of(table)))
      CHECK(documented.insert(row.key).second);
    CHECK(documented == known);
  }
}

TEST_CASE("The reference gives each key's range and words", "[docs]") {
  const auto rows = rows_by_heading(0);
  for (const io::TableInfo& table : io::case_tables())
    for (const Row& row : rows.at(heading_of(table))) {
      CAPTURE(heading_of(table), row.key);
      const io::KeyInfo* key = io::find_key(table.keys, row.key);
      REQUIRE(key);
      check_row(row, *key);
    }
}

TEST_CASE("The reference knows every shape with its sizes", "[docs]") {
  std::set<std::string> known, documented, required, bold;
  for (const mesh::ShapeKind& kind : mesh::shape_kinds()) {
    const std::string shape = std::string(kind.name) + ".";
    for (const mesh::SizeKey& size : kind.sizes) {
      known.insert(shape + std::string(size.name));
      if (size.required) required.insert(shape + std::string(size.name));
    }
    for (std::string_view flag : kind.flags)
      known.insert(shape + std::string(flag));
  }
  std::string shape;
  const auto rows = rows_by_heading(1);
  REQUIRE(rows.contains("Shapes"));
  for (const Row& row : rows.at("Shapes")) {
    if (!row.cells[0].empty()) shape = without_marks(row.cells[0]);
    documented.insert(shape + "." + row.key);
    if (row.bold) bold.insert(shape + "." + row.key);
  }
  INFO(
      "below \"Shapes\" in docs/case_file.md; sizes that must be there are "
      "bold");
  CHECK(documented == known);
  CHECK(bold == required);
}

TEST_CASE("The reference knows what a drawing takes", "[docs]") {
  const auto rows = rows_by_heading(0);
  REQUIRE(rows.contains("Drawings"));
  std::set<std::string> known, documented;
  for (const io::KeyInfo& key : io::outline_keys()) known.emplace(key.name);
  for (const Row& row : rows.at("Drawings")) {
    CAPTURE(row.key);
    documented.insert(row.key);
    const io::KeyInfo* key = io::find_key(io::outline_keys(), row.key);
    REQUIRE(key);
    check_row(row, *key);
  }
  CHECK(documented == known);
}

TEST_CASE("Every range can be read, low before high", "[docs]") {
  for (const io::TableInfo& table : io::case_tables())
    for (const io::KeyInfo& key : table.keys) {
      if (!takes_limits(key.form)) continue;
      CAPTURE(table.name, key.name);
      const auto dimension = key.limits.dimension;
      CHECK(io::parse_quantity(key.limits.low, dimension).value <
            io::parse_quantity(key.limits.high, dimension).value);
    }
}

TEST_CASE("Keys that exclude each other are keys of their table", "[docs]") {
  for (const io::TableInfo& table : io::case_tables())
    for (const io::KeyInfo& key : table.keys)
      for (std::string_view other : key.instead_of) {
        CAPTURE(table.name, key.name, other);
        CHECK(io::find_key(table.keys, other));
        CHECK(other != key.name);
      }
}
