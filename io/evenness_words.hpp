#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// The Wagner number and what it means for this set-up.
std::string evenness_words(const solver::Result& result);

/// The solution's throwing power in a test cell; "" of several layers, of which
/// each has its own.
std::string throwing_words(const solver::Result& result);

}  // namespace thinspot::io
