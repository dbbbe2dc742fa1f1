#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// The sentences that the terminal and the page share, so that both always
/// say the same.
struct Words {
  std::string verdict;  ///< target met or by how much not, and the time needed
  std::string thin;     ///< how thin, with band, and where
  std::string heavy;    ///< how heavy, with band, and where
  /// What the meter should read; what half of it means; what twice.
  std::vector<std::string> meter;
  std::string wagner;  ///< the number and what it means for this set-up
};

/// @pre result.parts is not empty; the verdict is on the first part.
Words words_for(const solver::Result& result);

}  // namespace thinspot::io
