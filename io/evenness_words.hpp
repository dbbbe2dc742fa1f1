#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// Wagner number and throwing power, and what they mean for this set-up.
std::string evenness_words(const solver::Result& result);

}  // namespace thinspot::io
