// docs/sweep.md and what a sweep does say the same.
#include "io/case_keys.hpp"
#include "io/sweep.hpp"
#include "io/sweep_sharing.hpp"
#include "tests/unit/docs_tables.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

using namespace thinspot;
using thinspot::tests::cells_of;

namespace {

using Cells = std::vector<std::string>;

/// Rows of all tables below a heading, heads and rules left out.
std::vector<Cells> rows_below(const std::string& heading) {
  std::ifstream in(THINSPOT_SOURCE_DIR "/docs/sweep.md");
  REQUIRE(in);
  std::vector<Cells> rows;
  bool here = false;
  std::size_t of_table = 0;
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("#")) here = line == heading;
    of_table = line.starts_with("|") ? of_table + 1 : 0;
    if (here && of_table > 2) rows.push_back(cells_of(line));
  }
  REQUIRE(!rows.empty());
  return rows;
}

/// Words between backquotes.
std::vector<std::string> quoted_in(const std::string& text) {
  std::vector<std::string> words;
  std::istringstream in(text);
  bool quoted = false;
  for (std::string piece; std::getline(in, piece, '`'); quoted = !quoted)
    if (quoted) words.push_back(piece);
  return words;
}

std::string heading_of(const io::TableInfo& table) {
  const std::string name(table.name);
  return table.repeated ? "[[" + name + "]]" : "[" + name + "]";
}

}  // namespace

TEST_CASE("Every output of a sweep is on its page, and no other", "[docs]") {
  std::vector<std::pair<std::string, std::string>> known, documented;
  for (const io::SweepOutput& output : io::sweep_outputs({}, true))
    known.emplace_back(output.name, output.unit);
  for (const Cells& row : rows_below("### Outputs")) {
    REQUIRE(row.size() >= 3);
    REQUIRE(quoted_in(row[0]).size() == 1);
    CHECK(!row[2].empty());
    documented.emplace_back(quoted_in(row[0]).front(), row[1]);
  }
  CHECK(documented == known);
}

TEST_CASE("The page says which keys share meshes", "[docs]") {
  std::map<std::string, std::set<std::string>> known, documented;
  const io::SweepAxis numbers = io::sweep_axis("any=1,2");
  const std::vector<Cells> rows = rows_below("## Which keys share meshes");
  for (const io::TableInfo& table : io::case_tables()) {
    io::AddressedTable place;
    place.info = &table;
    std::set<std::string> all;
    for (const io::KeyInfo& key : table.keys) {
      all.emplace(key.name);
      io::Address address;
      address.place = &place;
      address.key = &key;
      if (io::leaves_meshes(address, numbers, {}))
        known[heading_of(table)].emplace(key.name);
    }
    for (const Cells& row : rows) {
      if (row[0] != "`" + heading_of(table) + "`") continue;
      const std::vector<std::string> named = quoted_in(row[1]);
      std::set<std::string>& keys = documented[heading_of(table)];
      if (row[1].starts_with("all")) {
        keys = all;
        for (const std::string& but : named) CHECK(keys.erase(but) == 1);
      } else {
        keys.insert(named.begin(), named.end());
      }
    }
  }
  CHECK(documented == known);
  CHECK(rows.size() == documented.size());
}

TEST_CASE("The page says how much a sweep takes", "[docs]") {
  std::map<std::string, std::string> most;
  for (const Cells& row : rows_below("## How values are written"))
    if (row.size() >= 2) most[row[0]] = row[1];
  const auto written = [&](const std::string& what) {
    std::string digits;
    for (const char c : most[what]) {
      if (c >= '0' && c <= '9') digits += c;
      if (c == 'm') digits += "000000";  // million
      if (c == 'm') break;
    }
    CAPTURE(what, most[what]);
    REQUIRE(!digits.empty());
    return std::stoull(digits);
  };
  CHECK(written("keys") == io::kMostAxes);
  CHECK(written("values of a key") == io::kMostValues);
  CHECK(written("points of a grid") == io::kMostPoints);
  CHECK(written("points of a sample") == io::kMostSamples);
}
