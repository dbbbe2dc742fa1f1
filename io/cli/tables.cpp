#include "io/cli/tables.hpp"

#include "io/cli/wrap.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace thinspot::io::cli {

namespace {

using solver::PartResult;

/// Rows that a table may take before it is cut short; the page has them all.
constexpr std::size_t most_rows = 8;

/// Of the first column where two tables stand below each other.
constexpr std::size_t wide = 14;

struct Row {
  std::string name;
  solver::Spread thickness;    ///< [m]
  double current_density = 0;  ///< mean [A/m2]
  double area = 0;             ///< [m2]
  std::string remark;
};

/// A number of a column: as many places as the column's largest needs for
/// three digits, so that the points stand below each other.
std::string cell(double value, double largest) {
  const double size = std::abs(largest);
  const int places =
      size > 0
          ? std::clamp(2 - static_cast<int>(std::floor(std::log10(size))), 0, 6)
          : 0;
  return fmt::format("{:9.{}f}", value, places);
}

/// @param least_width  of the first column
std::string table(const std::string& heading, const std::vector<Row>& rows,
                  std::size_t least_width) {
  std::size_t width = std::max(least_width, columns(heading) + 2);
  double most_um = 0, most_a_dm2 = 0, most_cm2 = 0;
  for (const Row& row : rows) {
    width = std::max(width, columns(row.name) + 2);
    most_um = std::max(most_um, to_um(row.thickness.max));
    most_a_dm2 = std::max(most_a_dm2, to_a_dm2(row.current_density));
    most_cm2 = std::max(most_cm2, to_cm2(row.area));
  }
  width = std::min<std::size_t>(width, 30);
  std::string text = fmt::format("{}{}{}\n", padded(heading, width),
                                 padded_left("least     mean     most µm", 30),
                                 padded_left("A/dm²      cm²", 17));
  for (const Row& row : rows) {
    text += padded(row.name, width);
    if (row.area <= 0) {
      text += padded_left("bare", 9) + "\n";
      continue;
    }
    text += cell(to_um(row.thickness.min), most_um);
    text += cell(to_um(row.thickness.mean), most_um);
    text += cell(to_um(row.thickness.max), most_um) + "   ";
    text += cell(to_a_dm2(row.current_density), most_a_dm2);
    text += cell(to_cm2(row.area), most_cm2);
    text += (row.remark.empty() ? "" : "  " + row.remark) + "\n";
  }
  return text;
}

}  // namespace

std::string face_table(const PartResult& part, bool named) {
  const std::size_t shown = std::min(part.faces.size(), most_rows);
  std::vector<Row> rows;
  for (std::size_t k = 0; k < shown; ++k) {
    const solver::FaceResult& f = part.faces[k];
    rows.push_back({f.name, f.thickness, f.current_density.mean, f.area,
                    f.judged ? "" : "not judged"});
  }
  std::string text =
      named ? table("On " + part.name, rows, wide) : table("Face", rows, 8);
  if (part.faces.size() > shown)
    text += fmt::format("… and {} more faces in the report\n",
                        part.faces.size() - shown);
  return text;
}

std::string copy_table(const solver::Result& result) {
  std::vector<std::size_t> order(result.parts.size());
  for (std::size_t k = 0; k < order.size(); ++k) order[k] = k;
  const bool all = order.size() <= most_rows;
  if (!all) {
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) {
                       return result.parts[a].thickness.value.mean <
                              result.parts[b].thickness.value.mean;
                     });
    order.erase(order.begin() + most_rows / 2, order.end() - most_rows / 2);
  }
  std::vector<Row> rows;
  for (const std::size_t k : order) {
    const PartResult& p = result.parts[k];
    rows.push_back(
        {p.name, p.thickness.value, p.current_density.value.mean, p.area, ""});
  }
  std::string text = table("Copy", rows, wide);
  if (!all)
    text += fmt::format(
        "The thinnest and the heaviest; {} more between them in the report\n",
        result.parts.size() - rows.size());
  return text;
}

}  // namespace thinspot::io::cli
