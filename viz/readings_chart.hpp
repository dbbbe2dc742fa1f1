#pragma once

#include "solver/read_against.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// Readings against a forecast: where any was taken at a place of the surface,
/// the forecast thickness along it with these readings and their ±; below, for
/// each reading, how far the forecast lies off in standard deviations.
/// @param names  of the readings, one each
/// @returns SVG text; needs no display
std::string readings_chart(const solver::KeptResult& kept,
                           const std::vector<solver::ReadAgainst>& all,
                           const std::vector<std::string>& names);

}  // namespace thinspot::viz
