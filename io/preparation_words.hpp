#pragma once

#include "solver/preparation.hpp"
#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What a preparation comes to in sentences.
struct PreparationWords {
  std::string verdict;  ///< whether the coating holds, or what to find out
  std::string brief;    ///< the steps in one sentence; empty: there are none
  std::vector<std::string> steps;  ///< one line each, in order
  /// Where the current is off in between, and what that means: one or none.
  std::vector<std::string> interruptions;
  /// What the part would weigh, of an unknown metal: one or none.
  std::vector<std::string> weights;
  std::vector<std::string> more;     ///< why it peels, standard, test, bake …
  std::vector<std::string> details;  ///< of each step: how and why
};

PreparationWords words_for(const solver::Preparation& p);

/// Of the result's case, or of each of its layers, lowest first.
std::vector<solver::Preparation> preparations_of(const solver::Result& result);

}  // namespace thinspot::io
