#pragma once

#include <optional>
#include <string>

namespace thinspot::solver {

struct Result;

/// What thick deposits grow at edges, by metal.
struct EdgeBuild {
  double from = 0;       ///< thickness from which on it is likely [m]
  double thickness = 0;  ///< of the heaviest spot [m]
  std::string likely;    ///< "trees", "nodules"
  std::string where;     ///< the heaviest spot, in words
};

/// Where the heaviest spot is beyond what its metal grows smoothly. Likely, not
/// certain; common practice, no source: from memory.
std::optional<EdgeBuild> edge_build(const Result& result);

}  // namespace thinspot::solver
