#include "io/tables_csv.hpp"

#include "io/csv_rows.hpp"
#include "io/point_columns.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <cmath>
#include <iterator>

namespace thinspot::io {

namespace {

/// Six significant digits, lengths no finer than a millionth of a millimetre.
std::string number(double value) {
  if (!std::isfinite(value))
    throw NoResultError(
        "the result is unusable: a number on the part's surface is not finite");
  return fmt::format("{:.6g}", std::abs(value) < 1e-9 ? 0.0 : value);
}

}  // namespace

std::string surface_csv(const solver::Result& result) {
  std::string text =
      "part,loop,arc_mm,x_mm,y_mm,normal_x,normal_y,face,wetted,judged,"
      "area_cm2,current_density_A_dm2,thickness_um";
  const std::vector<PointColumn> columns = point_columns(result);
  for (const PointColumn& column : columns) text += "," + column.name;
  text += "\n";
  for (std::size_t k = 0; k < result.parts.size(); ++k) {
    const solver::PartResult& part = result.parts[k];
    for (std::size_t n = 0; n < part.surface.size(); ++n) {
      const solver::SurfacePoint& p = part.surface[n];
      fmt::format_to(
          std::back_inserter(text), "{},{},{},{},{},{},{},{},{},{},{},{},{}",
          csv_cell(part.name), p.loop, number(to_mm(p.arc)),
          number(to_mm(p.at.x())), number(to_mm(p.at.y())),
          number(p.normal.x()), number(p.normal.y()),
          csv_cell(part.faces.at(static_cast<std::size_t>(p.face)).name),
          p.wetted ? 1 : 0, p.judged ? 1 : 0, number(to_cm2(p.weight)),
          number(to_a_dm2(p.current_density)), number(to_um(p.thickness)));
      for (const PointColumn& column : columns)
        text += "," + number(column.parts[k](static_cast<Eigen::Index>(n)));
      text += "\n";
    }
  }
  return text;
}

}  // namespace thinspot::io
