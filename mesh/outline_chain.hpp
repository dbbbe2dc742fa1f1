#pragma once

#include "mesh/curve.hpp"

#include <string>
#include <vector>

namespace thinspot::mesh {

/// Chains loose pieces end to end into closed loops, turning round those that
/// were drawn the other way. Ends within `tolerance` are one point; pieces
/// without length and pieces drawn twice are dropped. The first piece of a
/// loop keeps its direction.
/// @param unit  name of the unit of length, for error texts
/// @throws InputError with key "file": an end without a partner, or a point at
///         which more than two pieces meet
std::vector<Loop> chain(const std::vector<Curve>& pieces, double tolerance,
                        const std::string& unit);

/// "(12.5, 3) mm"
std::string place_text(const Point& p, const std::string& unit);

}  // namespace thinspot::mesh
