#pragma once

#include "solver/case.hpp"
#include "solver/inspect.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What a check tells, in sentences and trade units.
struct InspectionWords {
  std::string verdict;             ///< how much there is to look at
  std::vector<std::string> looks;  ///< one a finding, most serious first
  std::string part, solution, current, voltage, time, anodes;
  /// An adapter's resistor, and wire for the current.
  std::vector<std::string> supply = {};
  std::vector<std::string> hanging;  ///< empty: not an upright section
};

InspectionWords words_for(const solver::Inspection& inspection,
                          const solver::Case& c);

}  // namespace thinspot::io
