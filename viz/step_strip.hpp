#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::viz {

/// How the coating grows: the tank once after every step, the part where it
/// stands in it, the same exaggeration in all. An SVG picture; of very many
/// steps some are left out.
std::string step_strip(const solver::Result& result);

}  // namespace thinspot::viz
