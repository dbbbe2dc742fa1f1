#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// surface.csv: one row for each point of the part's surface, in the order
/// that the surface is walked. Every header carries its unit: docs/outputs.md.
/// @throws NoResultError where a number is not finite.
std::string surface_csv(const solver::Result& result);

}  // namespace thinspot::io
