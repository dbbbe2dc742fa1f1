#pragma once

#include <Eigen/Core>

#include <cstdint>

namespace thinspot::io {

/// Numbers between 0 and 1 by a Sobol sequence, one row a point; each column's
/// bits flipped by bits drawn by lot, so that another seed gives another
/// sequence of the same kind. The first 2^k of them, with the point that is all
/// zeros before the flips, are spread evenly: as many in each of 2^k stretches
/// of a column, and in two columns in boxes of as many halvings. Direction
/// numbers by Joe and Kuo, as Boost.Random has them.
Eigen::MatrixXd sobol_shares(Eigen::Index points, Eigen::Index axes,
                             std::uint64_t seed);

}  // namespace thinspot::io
