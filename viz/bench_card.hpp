#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// What the card says, as the program words it elsewhere too.
struct CardWords {
  std::string title;
  std::string tank;                    ///< what is in it
  std::string verdict;                 ///< for those who cannot see the card
  std::vector<std::string> todo;       ///< one sentence, or one a layer
  std::vector<std::string> steps;      ///< what to set and how long
  std::vector<std::string> meter;      ///< what twice or half means
  std::vector<std::string> thickness;  ///< expected
  std::vector<std::string> cautions;   ///< most serious first
};

/// The card for the bench: one sheet of A5, upright, in black on white, to be
/// laid beside the jar. What to do, the tank with the distances to measure, the
/// steps, what the meter should read, what comes out, what to take care of, and
/// room to write down what was measured. What does not fit is cut after whole
/// sentences, and says that the report has more.
/// @pre result.steps and result.parts are not empty, steps with their sections
/// @returns SVG text, 148 mm by 210 mm
std::string bench_card(const solver::Result& result, const CardWords& words);

}  // namespace thinspot::viz
