#pragma once

#include <Eigen/Core>

#include <cstdint>

namespace thinspot::io {

/// Numbers between 0 and 1 by a Sobol sequence, one row a point, without its
/// first point, which is all zeros; each column's bits flipped by bits drawn by
/// lot, so that another seed gives another sequence of the same kind. Direction
/// numbers by Joe and Kuo, as Boost.Random has them.
Eigen::MatrixXd sobol_shares(Eigen::Index points, Eigen::Index axes,
                             std::uint64_t seed);

}  // namespace thinspot::io
