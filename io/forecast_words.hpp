#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// "83 %"; never none and never all: "under 1 %", "over 99 %".
std::string chance_text(double chance);

/// One line: what makes the doubt of the thinnest judged spot, and what the
/// best measurement would leave of it; "" where none would help.
std::string sure_words(const solver::Result& result);

/// Of each input that makes a hundredth of the doubt or more: how much, how it
/// is measured, and what that would leave. The largest first.
std::vector<std::string> measure_words(const solver::Result& result);

/// How wide the band is along the surface, and what is in it; "" where there
/// is none.
std::string along_words(const solver::Result& result);

}  // namespace thinspot::io
