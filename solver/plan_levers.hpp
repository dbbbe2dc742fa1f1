#pragma once

#include "solver/plan.hpp"
#include "solver/plan_search.hpp"

#include <vector>

namespace thinspot::solver {

/// What moving one thing a little does to the thinnest judged spot of a case as
/// drawn, all else and the time as they are; and what a turn does that it has
/// not. By solving on either side, as these need another mesh.
/// @param least  of the case, from its full solve [m]
std::vector<Lever> placing_levers(const Case& c, double least);

/// Less than this of the thickness is no lever: what meshes may make of it.
inline constexpr double kLeastLever = 5e-4;

/// That which does most first.
void sort_levers(std::vector<Lever>& levers);

}  // namespace thinspot::solver
