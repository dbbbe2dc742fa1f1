#pragma once

#include <Eigen/Core>

namespace thinspot::solver {

/// Nodes from which a mesh's system is solved by iteration instead of a factor:
/// for a third of the memory and, with two processors, about the same time here
/// and less beyond; refining ends here, so that few meshes come this far.
inline constexpr Eigen::Index kIteratedFrom = 150'000;

/// What solving takes at its peak, by what tests/bench/scale_bench measures a
/// node: 339 to 359 bytes, and 1,507 to 1,524.
double bytes_to_iterate(Eigen::Index nodes);
double bytes_to_factor(Eigen::Index nodes);

/// @throws NoResultError where that is more than a section may take.
void check_size(double bytes);
bool is_too_large(double bytes);

}  // namespace thinspot::solver
