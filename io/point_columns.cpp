#include "io/point_columns.hpp"

#include "io/layer_column.hpp"
#include "io/trade_units.hpp"

namespace thinspot::io {

namespace {

using Eigen::VectorXd;
using solver::Result;

bool has_share(const Result& result) {
  const auto& share = result.appraisal.burn.share;
  if (share.empty() || share.size() != result.parts.size()) return false;
  for (std::size_t p = 0; p < result.parts.size(); ++p)
    if (share[p].size() !=
        static_cast<Eigen::Index>(result.parts[p].surface.size()))
      return false;
  return true;
}

bool has_shape(const Result& result) {
  const auto& why = result.appraisal.why;
  if (!why || why->parts.size() != result.parts.size()) return false;
  for (std::size_t p = 0; p < result.parts.size(); ++p)
    if (why->parts[p].thickness.size() !=
        static_cast<Eigen::Index>(result.parts[p].surface.size()))
      return false;
  return true;
}

bool has_band(const Result& result) {
  for (const solver::PartResult& part : result.parts)
    for (const solver::SurfacePoint& p : part.surface)
      if (p.thickness_band.high > p.thickness_band.low) return true;
  return false;
}

/// One end of the bands.
PointColumn ends_of_bands(const Result& result, const char* name,
                          double solver::Interval::*end) {
  PointColumn column{name, {}};
  for (const solver::PartResult& part : result.parts) {
    VectorXd& values = column.parts.emplace_back(
        static_cast<Eigen::Index>(part.surface.size()));
    for (std::size_t n = 0; n < part.surface.size(); ++n)
      values(static_cast<Eigen::Index>(n)) =
          to_um(part.surface[n].thickness_band.*end);
  }
  return column;
}

}  // namespace

std::vector<PointColumn> point_columns(const Result& result) {
  std::vector<PointColumn> all;
  for (std::size_t l = 0; l < result.layers.size(); ++l) {
    PointColumn& column = all.emplace_back();
    column.name = layer_column(result, l);
    for (const VectorXd& thickness : result.layers[l].thickness)
      column.parts.push_back(to_um(1) * thickness);
  }
  if (has_share(result))
    all.push_back({"share_of_limit", result.appraisal.burn.share});
  if (has_shape(result)) {
    PointColumn& column = all.emplace_back();
    column.name = "thickness_by_shape_um";
    for (const solver::WhyPart& part : result.appraisal.why->parts)
      column.parts.push_back(to_um(1) * part.thickness);
  }
  if (has_band(result)) {
    all.push_back(
        ends_of_bands(result, "thickness_low_um", &solver::Interval::low));
    all.push_back(
        ends_of_bands(result, "thickness_high_um", &solver::Interval::high));
  }
  return all;
}

}  // namespace thinspot::io
