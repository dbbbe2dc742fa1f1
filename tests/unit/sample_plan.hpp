#pragma once

#include "solver/plan.hpp"

namespace thinspot::tests {

/// A plan made by hand, small enough to check every word printed from it: a
/// token before one sheet, to be plated 10 µm thick; proposed are a sheet moved
/// from 35 mm to 22 mm with one turn, and one sheet more without a turn. The
/// first has a result by hand, with two cautions.
solver::Plan sample_plan();

/// The same where the drawn set-up is the best.
solver::Plan plan_as_drawn();

}  // namespace thinspot::tests
