#pragma once

#include "solver/plan.hpp"

#include <string>

namespace thinspot::viz {

/// What evenness costs in time: the largest over the least thickness against
/// the time at the bench, for all that nothing tried is as quick as and more
/// even than, joined by a line; the drawn set-up, the recommended one and the
/// alternatives marked by signs of different shapes. Scales go by factor where
/// times or ratios lie far apart. A set-up that leaves a place bare has no
/// ratio and stands in words alone.
/// @returns SVG text, to be read down to 370 px
std::string trade_off_chart(const solver::Plan& plan);

}  // namespace thinspot::viz
