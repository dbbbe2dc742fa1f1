#pragma once

#include "solver/gas.hpp"

#include <string>

namespace thinspot::io {

/// How much of what bubbles off, and what that asks for; "" where nothing does.
std::string gas_words(const solver::Gas& gas);

}  // namespace thinspot::io
