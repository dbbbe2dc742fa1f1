#pragma once

#include "io/words.hpp"
#include "solver/result.hpp"

#include <string>

namespace thinspot::io::cli {

/// The card for the bench as SVG text, drawn by viz with the words of io.
std::string card_of(const solver::Result& result, const Words& words);

}  // namespace thinspot::io::cli
