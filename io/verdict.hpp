#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// Target met, or by how much not, and the time that would do. On a rack the
/// target is judged over all copies.
/// @pre result.parts is not empty
std::string verdict(const solver::Result& result);

}  // namespace thinspot::io
