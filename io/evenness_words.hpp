#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// Wagner number and throwing power of the solution, and what they mean for
/// this set-up.
std::string wagner_words(const solver::Result& result);

/// How much of the unevenness is shape and placing, how much polarization
/// relieves, and what other currents and solutions would do; "" where the
/// coating is even whatever is done.
std::string why_words(const solver::Result& result);

}  // namespace thinspot::io
