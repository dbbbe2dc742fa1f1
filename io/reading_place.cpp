#include "io/number.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/reading_cells.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::io {

namespace {

using solver::Reading;
using In = Reading::In;
using Of = Reading::Of;
using Where = Reading::Where;

/// "step 2" -> 1
std::optional<std::size_t> counted(std::string_view text,
                                   std::string_view word) {
  if (!text.starts_with(word)) return std::nullopt;
  const std::string_view rest = trimmed(text.substr(word.size()));
  const NumberStart number = read_number(rest);
  if (number.length == 0 || number.length != rest.size() || number.number < 1 ||
      number.number > 1000 || number.number != std::floor(number.number))
    return std::nullopt;
  return static_cast<std::size_t>(number.number) - 1;
}

void read_place(Reading& r) {
  if (r.at.empty()) {
    if (r.of == Of::thickness)
      refuse_cell(
          "at", "is left out",
          r.in == In::panel
              ? "the distance from the panel's near end, as in 25 mm"
              : "a probe's name, \"x, y\" in quotes, thinnest, heaviest or "
                "mean");
    return;
  }
  if (r.in == In::panel && r.of == Of::thickness) {
    r.where = Where::along;
    r.distance = cell_value("at", r.at, Dimension::length, 0, 0.1016);
    return;
  }
  if (r.in != In::tank)
    refuse_cell("at", in_quotes(r.at) + " has no use here", "leave it out");
  if (r.of == Of::voltage || r.of == Of::current) {
    if ((r.step = counted(r.at, "step"))) return;
    if (r.of == Of::current)
      refuse_cell("at", in_quotes(r.at) + " is no step", "as in step 2");
    r.at_current = cell_value("at", r.at, Dimension::current, 1e-6, 1e5);
    return;
  }
  if ((r.copy = counted(r.at, "part"))) return;
  if (r.of == Of::mass)
    refuse_cell("at", in_quotes(r.at) + " is no part",
                "part 2 of a rack, or nothing for all parts");
  if (r.at == "mean") return;
  r.where = r.at == "thinnest"   ? Where::thinnest
            : r.at == "heaviest" ? Where::heaviest
                                 : Where::probe;
  const auto comma = r.at.find(',');
  // A probe's name may hold a comma.
  if (comma == std::string::npos || read_number(r.at).length == 0) return;
  r.where = Where::point;
  const std::string_view whole = r.at;
  r.point = {cell_value("at", trimmed(whole.substr(0, comma)),
                        Dimension::length, -10, 10),
             cell_value("at", trimmed(whole.substr(comma + 1)),
                        Dimension::length, -10, 10)};
}

void read_cell_setting(const std::string& setting, Reading& r) {
  struct Setting {
    std::string_view key;
    In in;
    Dimension dimension;
    double solver::TestCell::*into;
    double least, most;
  };
  using Cell = solver::TestCell;
  static const std::vector<Setting> settings = {
      {"current", In::panel, Dimension::current, &Cell::current, 1e-3, 100},
      {"duration", In::panel, Dimension::duration, &Cell::duration, 1, 1e6},
      {"depth", In::panel, Dimension::length, &Cell::depth, 1e-3, 1},
      {"current", In::two_cathodes, Dimension::current, &Cell::current, 1e-3,
       1e3},
      {"near", In::two_cathodes, Dimension::length, &Cell::near_gap, 1e-3, 10},
      {"far", In::two_cathodes, Dimension::length, &Cell::far_gap, 1e-3, 10},
      {"area", In::two_cathodes, Dimension::area, &Cell::area, 1e-6, 10},
  };
  const auto equals = setting.find('=');
  const std::string_view key =
      trimmed(std::string_view(setting).substr(0, equals));
  std::vector<std::string> keys;
  for (const Setting& s : settings) {
    if (s.in != r.in) continue;
    keys.emplace_back(s.key);
    if (s.key != key || equals == std::string::npos) continue;
    r.cell.*s.into = cell_value(
        "with", trimmed(std::string_view(setting).substr(equals + 1)),
        s.dimension, s.least, s.most);
    return;
  }
  refuse_cell("with", in_quotes(setting) + " is no setting of this cell",
              with_or(keys) + ", as in current=1 A");
}

void read_with(const std::string& text, Reading& r) {
  std::string_view rest = text;
  while (!trimmed(rest).empty()) {
    const auto end = rest.find(';');
    const std::string one(trimmed(rest.substr(0, end)));
    rest = end == std::string_view::npos ? "" : rest.substr(end + 1);
    if (one.empty()) continue;
    if (r.in == In::tank)
      r.with.push_back(one);
    else
      read_cell_setting(one, r);
  }
  if (r.in == In::two_cathodes && !(r.cell.far_gap > r.cell.near_gap))
    refuse_cell("with", "the far cathode is no farther than the near one",
                "near=25 mm; far=125 mm");
  // In any order it is the same set-up.
  std::sort(r.with.begin(), r.with.end());
}

}  // namespace

void read_reading_place(const ReadingRow& row, Reading& r) {
  r.at = row("at");
  read_place(r);
  read_with(row("with"), r);
}

}  // namespace thinspot::io
