#pragma once

#include "io/planned_case.hpp"
#include "solver/fit.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

struct FittedCase {
  std::string text;      ///< of the calibrated case file
  std::string fragment;  ///< what changed alone, to be pasted
  std::vector<CopiedDrawing> drawings;
  /// Values that no key of the file takes, as a step's share of a list.
  std::vector<std::string> unwritten;
};

/// The user's case file with the fitted values in place, comments and order
/// kept, a changed line ending with what it was; and those values alone. It was
/// read back: it says what was fitted, to the digits that it is worth.
/// @param readings  name of their file, for the heads
/// @throws NoResultError where it cannot be written so.
FittedCase fitted_case(const DrawnCase& drawn, const solver::Fit& fit,
                       const std::string& readings);

}  // namespace thinspot::io
