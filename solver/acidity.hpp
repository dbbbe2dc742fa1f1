#pragma once

#include "solver/compound.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// How acid a solution is, in words with the range of its pH, as far as what it
/// is made of tells: strong acids and bases by what is left of them, else the
/// weak ones, else what metal salts make of water. From textbooks, from memory.
std::string acidity_of(const std::vector<Dose>& doses);

}  // namespace thinspot::solver
