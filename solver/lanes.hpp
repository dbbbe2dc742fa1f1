#pragma once

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Fields that are solved for together, so that a matrix too large for the
/// caches is fetched once for all of them: one value of each.
inline constexpr int kLanes = 2;
using Lanes = Eigen::Array<double, kLanes, 1>;
using LaneVector = std::vector<Lanes>;

}  // namespace thinspot::solver
