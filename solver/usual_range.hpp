#pragma once

#include "solver/case.hpp"

#include <optional>
#include <string>

namespace thinspot::solver {

/// Current densities at which a solution usually plates well.
struct UsualRange {
  double low = 0, high = 0;  ///< mean over the part [A/m2]
  std::string source;
  bool agitated = false;  ///< the source has stirred solutions in mind
};

/// The case's own working range, else what a handbook gives for the metal,
/// less where the case has a limiting current density. Nothing where neither
/// says: for a metal not in the table, or for a solution that conducts so
/// poorly that it cannot be the usual one.
std::optional<UsualRange> usual_range(const Case& c);

/// Share of the limiting current density above which deposits begin to burn.
/// From memory; common practice.
inline constexpr double kShareOfLimit = 0.4;

}  // namespace thinspot::solver
