#pragma once

#include "solver/plan.hpp"

#include <string>

namespace thinspot::viz {

/// What to change first: for each small change of the drawn set-up by how much
/// the thinnest spot gains (right of the line) or loses (left of it), in per
/// cent; that which does most on top, at most ten.
/// @returns SVG text, to be read down to 370 px
std::string changes_chart(const solver::Plan& plan);

}  // namespace thinspot::viz
