#pragma once

#include "io/words.hpp"
#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What the card for the bench says, in the order of the sheet. Each entry is
/// one or several whole sentences, short enough to be read with wet hands.
struct CardWords {
  std::string title;
  std::string tank;  ///< solution, temperature, stirring; of all layers
  std::string verdict;
  std::vector<std::string> todo;
  std::vector<std::string> steps;      ///< what to set, to change, how long
  std::vector<std::string> meter;      ///< what twice or half means
  std::vector<std::string> thickness;  ///< expected; of several layers each
  std::vector<std::string> cautions;   ///< most serious first, all of them
};

/// @pre result.parts is not empty
CardWords card_words(const solver::Result& result, const Words& words);

}  // namespace thinspot::io
