#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::viz {

/// The coating along the part's surface three times on one chart: as shape and
/// placing alone would have it, as it is plated, and perfectly even. SVG.
/// @pre result.appraisal.why has a value
std::string why_picture(const solver::Result& result);

}  // namespace thinspot::viz
