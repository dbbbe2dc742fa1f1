#include "io/kept_surface.hpp"

#include "io/csv_rows.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

namespace {

using solver::KeptResult;
using solver::PartResult;
using solver::SurfacePoint;

constexpr const char* kAgain = "run thinspot solve again";
/// Beyond it no number of a workshop lies, in any of the table's units.
constexpr double kLargest = 1e9;
/// More outlines no part has.
constexpr double kMostLoops = 100'000;
/// Fewer points make no surface.
constexpr std::size_t kFewest = 3;

InputError damaged(int line, const std::string& what) {
  return {line > 0 ? fmt::format("surface.csv: line {}", line) : "surface.csv",
          what, kAgain};
}

/// Where in a row each quantity stands.
struct Columns {
  enum {
    part,
    loop,
    arc,
    x,
    y,
    normal_x,
    normal_y,
    face,
    wetted,
    judged,
    area,
    density,
    thickness,
    count
  };
  std::array<std::size_t, count> at{};
  std::optional<std::size_t> low, high;
  std::size_t width = 0;
};

constexpr std::array<const char*, Columns::count> kNames = {
    "part",        "loop",     "arc_mm",   "x_mm",
    "y_mm",        "normal_x", "normal_y", "face",
    "wetted",      "judged",   "area_cm2", "current_density_A_dm2",
    "thickness_um"};

Columns columns_of(const std::vector<std::string>& head) {
  Columns columns;
  columns.width = head.size();
  const auto find = [&](std::string_view name) -> std::optional<std::size_t> {
    const auto found = std::find(head.begin(), head.end(), name);
    if (found == head.end()) return std::nullopt;
    return static_cast<std::size_t>(found - head.begin());
  };
  for (std::size_t k = 0; k < kNames.size(); ++k) {
    const auto at = find(kNames[k]);
    if (!at) throw damaged(1, fmt::format("has no column {}", kNames[k]));
    columns.at[k] = *at;
  }
  columns.low = find("thickness_low_um");
  columns.high = find("thickness_high_um");
  return columns;
}

/// One row by its columns.
class Row {
 public:
  Row(const Columns& columns, const std::vector<std::string>& cells, int line)
      : columns_(columns), cells_(cells), line_(line) {
    if (cells.size() != columns.width)
      throw damaged(line, fmt::format("has {} columns, the first line {}",
                                      cells.size(), columns.width));
  }

  const std::string& text(std::size_t column) const {
    return cells_[columns_.at[column]];
  }
  double number(std::size_t column) const {
    return number_at(columns_.at[column]);
  }
  double number_at(std::size_t place) const {
    const std::string& cell = cells_[place];
    double value = 0;
    const auto [end, error] =
        std::from_chars(cell.data(), cell.data() + cell.size(), value);
    if (error != std::errc{} || end != cell.data() + cell.size() ||
        !std::isfinite(value) || std::abs(value) > kLargest)
      throw damaged(line_,
                    fmt::format("has no sound number in column {}", place + 1));
    return value;
  }
  bool flag(std::size_t column) const {
    if (text(column) != "0" && text(column) != "1")
      throw damaged(line_, fmt::format("has neither 0 nor 1 in column {}",
                                       columns_.at[column] + 1));
    return text(column) == "1";
  }

 private:
  const Columns& columns_;
  const std::vector<std::string>& cells_;
  int line_;
};

/// Fills the parts row by row.
class Filler {
 public:
  explicit Filler(KeptResult& kept) : kept_(kept) {
    faces_.resize(kept.result.parts.size());
    for (std::size_t p = 0; p < faces_.size(); ++p) {
      const auto& faces = kept.result.parts[p].faces;
      for (std::size_t f = 0; f < faces.size(); ++f)
        faces_[p].emplace(faces[f].name, static_cast<int>(f));
    }
  }

  void take(const Columns& columns, const Row& row, int line) {
    PartResult& part = part_of(row.text(Columns::part), line);
    SurfacePoint p;
    const double loop = row.number(Columns::loop);
    p.arc = 1e-3 * row.number(Columns::arc);
    check_order(part, loop, p.arc, line);
    p.loop = static_cast<int>(loop);
    p.at = 1e-3 * mesh::Point(row.number(Columns::x), row.number(Columns::y));
    p.normal = {row.number(Columns::normal_x), row.number(Columns::normal_y)};
    p.face = face_of(part, row.text(Columns::face));
    p.wetted = row.flag(Columns::wetted);
    p.judged = row.flag(Columns::judged);
    p.weight = 1e-4 * row.number(Columns::area);
    p.current_density = 1e2 * row.number(Columns::density);
    p.thickness = 1e-6 * row.number(Columns::thickness);
    if (columns.low && columns.high)
      p.thickness_band = {1e-6 * row.number_at(*columns.low),
                          1e-6 * row.number_at(*columns.high)};
    part.surface.push_back(p);
  }

 private:
  PartResult& part_of(const std::string& name, int line) {
    auto& parts = kept_.result.parts;
    while (at_ < parts.size() && parts[at_].name != name) ++at_;
    if (at_ == parts.size())
      throw damaged(line,
                    "is of a part that summary.json does not have, or "
                    "not in this order");
    return parts[at_];
  }

  static void check_order(const PartResult& part, double loop, double arc,
                          int line) {
    const bool first = part.surface.empty();
    const double before = first ? -1 : part.surface.back().loop;
    // A hole whose edge is closed is left out.
    const bool next = loop > before && loop < kMostLoops;
    if (loop != std::floor(loop) || loop < 0 || (loop != before && !next))
      throw damaged(line, "is of an outline out of its order");
    if (arc < 0 || (loop == before && arc < part.surface.back().arc))
      throw damaged(line, "goes back along the outline");
  }

  int face_of(PartResult& part, const std::string& name) {
    auto& known = faces_[at_];
    const auto [found, added] =
        known.emplace(name, static_cast<int>(part.faces.size()));
    if (added)
      part.faces.push_back(
          {.name = name, .current_density = {}, .thickness = {}});
    return found->second;
  }

  KeptResult& kept_;
  std::size_t at_ = 0;
  std::vector<std::map<std::string, int>> faces_;
};

void check_points(const PartResult& part) {
  const auto& s = part.surface;
  for (std::size_t first = 0, k = 1; k <= s.size(); ++k) {
    if (k < s.size() && s[k].loop == s[first].loop) continue;
    if (k - first < kFewest || !(s[k - 1].arc > s[first].arc))
      throw damaged(0, fmt::format("has too few points on {}", part.name));
    first = k;
  }
  if (s.empty()) throw damaged(0, fmt::format("has no point on {}", part.name));
}

}  // namespace

void read_surface(std::string_view csv, KeptResult& kept) {
  CsvRows rows(csv);
  std::vector<std::string> cells;
  if (csv.starts_with("\xEF\xBB\xBF")) rows = CsvRows(csv.substr(3));
  try {
    if (!rows.next(cells)) throw damaged(0, "is empty");
    const Columns columns = columns_of(cells);
    Filler filler(kept);
    std::size_t count = 0;
    while (rows.next(cells)) {
      if (++count > most_surface_rows)
        throw damaged(rows.line(), "is more than any surface has");
      filler.take(columns, Row(columns, cells, rows.line()), rows.line());
    }
  } catch (const InputError& error) {
    const Problem& p = error.problems().front();
    if (p.key.starts_with("surface.csv")) throw;
    throw InputError("surface.csv: " + p.key, p.wrong, kAgain);
  }
  kept.result.section.solids.clear();
  for (PartResult& part : kept.result.parts) {
    check_points(part);
    part.solid = kept.result.section.solids.size();
    mesh::PlacedSolid& solid = kept.result.section.solids.emplace_back();
    solid.spec.name = part.name;
    solid.outline = solver::outline_through(part, kept.result.section.cut);
  }
  solver::surround(kept.result.section);
}

}  // namespace thinspot::io
