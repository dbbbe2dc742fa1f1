#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::viz {

/// Thickness along the unrolled surface of the part, face by face, with the
/// target line. SVG text; needs no display.
std::string thickness_chart(const solver::Result& result);

}  // namespace thinspot::viz
