#pragma once

#include "solver/case.hpp"

#include <optional>

namespace thinspot::solver {

/// The case's own working range, else that of the library's entry, else what a
/// handbook gives for the metal, less where the case has a limiting current
/// density. Nothing where neither says: for a metal not in the table, or for a
/// solution that conducts so poorly that it cannot be the usual one.
std::optional<UsualRange> usual_range(const Case& c);

/// Share of the limiting current density above which deposits begin to burn.
/// From memory; common practice.
inline constexpr double kShareOfLimit = 0.4;

}  // namespace thinspot::solver
