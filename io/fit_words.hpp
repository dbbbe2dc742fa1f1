#pragma once

#include "solver/fit.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What a fit says, in sentences for the bench.
struct FitWords {
  std::string verdict;              ///< what was found, in one or two sentences
  std::vector<std::string> values;  ///< each wanted value, then others
  std::string scatter;              ///< whether the readings go together
  std::vector<std::string>
      outliers;                     ///< readings that do not, and what they do
  std::vector<std::string> untold;  ///< what the readings cannot tell apart
  std::vector<std::string> next;    ///< what to read to tell it
  std::vector<std::string> forecast;  ///< what it means for the part
};

FitWords fit_words(const solver::Fit& fit);

/// "18.3 S/m (17.1 to 19.6)"
std::string fitted_value_text(const solver::FittedValue& value);

/// "20 S/m +- 3 S/m" as the case has it; "0 V, exact".
std::string stated_value_text(const solver::FittedValue& value);

/// How far the fitted case is from a reading, in the reading's own +-:
/// "0.4 above", "2.1 below".
std::string off_text(const solver::FittedReading& reading);

}  // namespace thinspot::io
