#pragma once

#include "solver/case.hpp"

namespace thinspot::bench {

/// The token before its sheet at one volt, of a slope that stays what it is.
/// @param shift  of the token along its sheet [m]
solver::Case coin(double turn = 0, double shift = 0);

inline constexpr int kAngles = 72;
double angle(int k);  ///< [rad]

/// The coin at another slope of its polarization, and another mean current
/// density in place of the volt.
inline constexpr int kChanges = 200;
solver::Case changed(int k);

/// Four columns of twelve smaller coins between two sheets at one volt.
solver::Case rack_of_48();

}  // namespace thinspot::bench
