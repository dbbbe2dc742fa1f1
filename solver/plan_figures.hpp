#pragma once

#include "solver/plan.hpp"
#include "solver/result.hpp"

namespace thinspot::solver {

/// What a solved set-up comes to, and which bounds of its case it breaks.
PlanFigures plan_figures(const Result& result);

/// Handlings of the part while it plates: one after each step, and each
/// position of a step in which it turns and stops.
int handlings(const Case& c);

/// That a case's handlings take, and what its metal asks for after each [s].
double handling_time(const Case& c);

}  // namespace thinspot::solver
