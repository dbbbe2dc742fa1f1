#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// How much of the unevenness is shape and placing, how much polarization
/// relieves, and what other currents and solutions would do; "" where nothing
/// is known of it.
std::string why_words(const solver::Result& result);

}  // namespace thinspot::io
