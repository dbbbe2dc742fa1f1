#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What the meter should read; what half of it means; what twice.
std::vector<std::string> meter_words(const solver::Result& result);

}  // namespace thinspot::io
