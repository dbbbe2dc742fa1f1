#pragma once

#include "mesh/curve.hpp"

#include <string>
#include <vector>

namespace thinspot::mesh {

/// Makes an outline of closed loops: those inside an even number of others
/// become outer loops, counter-clockwise, the rest holes, clockwise. Pieces
/// without a face get "outline" or "hole".
/// @param tolerance  lengths below it are none
/// @param unit       name of the unit of length, for error texts
/// @throws InputError with key "file": loops that cross or touch themselves or
///         each other, or enclose nothing
Outline nest(std::vector<Loop> loops, double tolerance,
             const std::string& unit);

}  // namespace thinspot::mesh
