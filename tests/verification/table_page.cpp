#include "table_page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <sstream>
#include <utility>

namespace thinspot::tests {

namespace {

enum Column { name, source, quantity, exact, computed, error, bar, order };

constexpr const char* head =
    "| case | source | quantity | exact | computed | error | bar | order |";

constexpr const char* introduction = R"(# Verification

{}.

Figures that are known from elsewhere, and what thinspot makes of them.
`exact` is the source's figure, evaluated anew; `computed` is ours, on the mesh
that the program makes by itself unless the row names another; `error` is
computed less exact, and `bar` how far off the program says it may be, both in
the unit of the quantity. `i` is a current density, averaged over the case's
averaging length around the place. `order` tells how fast the error falls where
every triangle is made into four, again and again: 4 means to a sixteenth each
time, and in brackets stands the least that theory expects; "exact", that the
answer lies in the space of the elements and rounding is all there is; "not
judged", that the source is no exact value, and the error is how far *it* is
off. Every run of the tests makes this table anew and compares it with this
page; `tests/verification/write_table` writes it.

)";

std::string text_of(const Order& o) {
  switch (o.kind) {
    case Order::Kind::none: return "–";
    case Order::Kind::exact: return "exact";
    case Order::Kind::measured: break;
  }
  return fmt::format("{:.1f} ({:.3g})", o.measured, o.expected);
}

/// Rounding that came out as nothing at all is still rounding.
std::string small(double value) {
  return value == 0 ? "0" : fmt::format("{:.1e}", value);
}

PrintedRow printed(const Row& r) {
  return {r.name,
          r.source,
          r.quantity,
          fmt::format("{:.9g}", r.exact),
          fmt::format("{:.9g}", r.computed),
          small(r.computed - r.exact),
          small(r.bar),
          r.judged ? text_of(r.order) : "not judged"};
}

using Key = std::pair<std::string, std::string>;

std::map<Key, PrintedRow> by_key(const std::vector<PrintedRow>& rows,
                                 const char* whose,
                                 std::vector<std::string>& complaints) {
  std::map<Key, PrintedRow> map;
  for (const PrintedRow& r : rows)
    if (!map.emplace(Key{r[name], r[quantity]}, r).second)
      complaints.push_back(
          fmt::format("{} twice {}: {}", r[name], whose, r[quantity]));
  return map;
}

}  // namespace

std::string table_page(const std::vector<Row>& rows,
                       const std::string& verified) {
  std::string page = fmt::format(fmt::runtime(introduction), verified);
  page += fmt::format("{}\n|---|---|---|---|---|---|---|---|\n", head);
  PrintedRow before;
  for (const Row& row : rows) {
    const PrintedRow cells = printed(row);
    PrintedRow shown = cells;
    if (cells[name] == before[name]) {
      shown[name].clear();
      if (cells[source] == before[source]) shown[source].clear();
    }
    page += fmt::format("| {} |\n", fmt::join(shown, " | "));
    before = cells;
  }
  return page;
}

std::vector<PrintedRow> read_table_page(const std::string& page) {
  std::vector<PrintedRow> rows;
  std::istringstream lines(page);
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    if (line == head) {
      inside = true;
      std::getline(lines, line);  // the rule under the head
      continue;
    }
    if (!inside || !line.starts_with("| ")) continue;
    PrintedRow cells;
    std::size_t at = 2;
    for (std::string& cell : cells) {
      const std::size_t end = line.find(" |", at - 1);
      if (end == std::string::npos) break;
      if (end > at) cell = line.substr(at, end - at);
      at = end + 3;
    }
    for (const Column c : {name, source})
      if (cells[c].empty() && !rows.empty()) cells[c] = rows.back()[c];
    rows.push_back(cells);
  }
  return rows;
}

std::vector<std::string> table_differences(
    const std::vector<PrintedRow>& documented,
    const std::vector<PrintedRow>& today) {
  std::vector<std::string> complaints;
  const auto old_rows = by_key(documented, "on the page", complaints);
  const auto new_rows = by_key(today, "today", complaints);
  for (const auto& [key, row] : new_rows)
    if (!old_rows.contains(key))
      complaints.push_back(
          fmt::format("not on the page: {}, {}", key.first, key.second));
  for (const auto& [key, old_row] : old_rows) {
    const auto found = new_rows.find(key);
    const std::string what = fmt::format("{}, {}", key.first, key.second);
    if (found == new_rows.end()) {
      complaints.push_back(fmt::format("only on the page: {}", what));
      continue;
    }
    const PrintedRow& new_row = found->second;
    for (const Column c : {source, exact})
      if (old_row[c] != new_row[c])
        complaints.push_back(fmt::format("{}: \"{}\" on the page, \"{}\" today",
                                         what, old_row[c], new_row[c]));
    const double apart =
        std::abs(std::stod(new_row[computed]) - std::stod(old_row[computed]));
    if (!(apart <= std::stod(old_row[bar])))
      complaints.push_back(
          fmt::format("{}: computed {} on the page, {} today, {:.1e} apart",
                      what, old_row[computed], new_row[computed], apart));
  }
  return complaints;
}

}  // namespace thinspot::tests
