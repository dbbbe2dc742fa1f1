#include "io/point_columns.hpp"

#include "io/layer_column.hpp"
#include "io/trade_units.hpp"

namespace thinspot::io {

namespace {

using Eigen::VectorXd;
using solver::Result;

VectorXd largest_density(const Result& result, std::size_t part) {
  VectorXd most = VectorXd::Zero(
      static_cast<Eigen::Index>(result.parts[part].surface.size()));
  for (const solver::StepResult& step : result.steps)
    if (part < step.parts.size() &&
        step.parts[part].current_density.size() == most.size())
      most = most.cwiseMax(step.parts[part].current_density);
  return most;
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

}  // namespace

std::vector<PointColumn> point_columns(const Result& result) {
  std::vector<PointColumn> all;
  for (std::size_t l = 0; l < result.layers.size(); ++l) {
    PointColumn& column = all.emplace_back();
    column.name = layer_column(result, l);
    for (const VectorXd& thickness : result.layers[l].thickness)
      column.parts.push_back(to_um(1) * thickness);
  }
  if (result.appraisal.burn.limit) {
    PointColumn& column = all.emplace_back();
    column.name = "share_of_limit";
    for (std::size_t p = 0; p < result.parts.size(); ++p)
      column.parts.push_back(largest_density(result, p) /
                             *result.appraisal.burn.limit);
  }
  if (has_shape(result)) {
    PointColumn& column = all.emplace_back();
    column.name = "thickness_by_shape_um";
    for (const solver::WhyPart& part : result.appraisal.why->parts)
      column.parts.push_back(to_um(1) * part.thickness);
  }
  return all;
}

}  // namespace thinspot::io
