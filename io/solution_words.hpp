#pragma once

#include "solver/case.hpp"

#include <string>

namespace thinspot::io {

/// What is in the jar, in one plain sentence: how well it conducts and how sure
/// that is, how acid it is, how much metal it holds and can bring.
std::string solution_in_words(const solver::Solution& solution);

}  // namespace thinspot::io
