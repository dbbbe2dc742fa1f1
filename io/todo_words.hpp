#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What to do now, one sentence: less current where it burns, so much more time
/// where that helps, plate as planned where the target is met. Of several
/// layers one each, its name before it.
/// @pre result.parts is not empty
std::vector<std::string> todo_words(const solver::Result& result);

}  // namespace thinspot::io
