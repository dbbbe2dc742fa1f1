#pragma once

#include "mesh/curve.hpp"

#include <optional>
#include <vector>

namespace thinspot::mesh {

/// Fractions of a's length at which b crosses or touches it, unsorted; a
/// stretch that both share counts by its ends.
std::vector<double> crossings(const Curve& a, const Curve& b);

/// True where the insides of two outlines share more than slivers thinner than
/// `tolerance` [m].
bool overlap(const Outline& a, const Outline& b, double tolerance);

/// A point where curves of one outline meet other than end to end, if there
/// is one.
std::optional<Point> self_crossing(const Outline& o, double tolerance);

}  // namespace thinspot::mesh
