#pragma once

#include <optional>
#include <string>

namespace thinspot::solver {

struct Result;

/// Which share of the part lies where the solution usually plates well.
struct InRange {
  double low = 0, high = 0;  ///< [A/m2]
  std::string source;
  double share = 0;  ///< of the parts' area in the last step, 0..1
};

/// @returns nullopt where no usual range is known.
std::optional<InRange> share_in_range(const Result& result);

}  // namespace thinspot::solver
