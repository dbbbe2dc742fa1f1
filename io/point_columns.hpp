#pragma once

#include "solver/result.hpp"

#include <Eigen/Core>

#include <string>
#include <vector>

namespace thinspot::io {

/// A quantity at the points of the surface that only some results have.
struct PointColumn {
  std::string name;                    ///< with its unit: "layer_2_nickel_um"
  std::vector<Eigen::VectorXd> parts;  ///< in that unit, as PartResult::surface
};

/// What each of several layers leaves; share_of_limit, the largest of all
/// steps, where a limit is known; thickness_by_shape_um, as shape and placing
/// alone would have it.
std::vector<PointColumn> point_columns(const solver::Result& result);

}  // namespace thinspot::io
