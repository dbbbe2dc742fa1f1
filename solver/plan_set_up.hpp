#pragma once

#include "solver/plan.hpp"
#include "solver/plan_search.hpp"

namespace thinspot::solver {

/// What a search found as a case that a hand can set up: places in whole steps
/// of a ruler, settings in those of a knob, times in whole minutes. What hardly
/// differs from what is drawn stays as it is.
/// @param drawn  the case that the search began with
Case set_up_case(const Case& drawn, const SearchSpace& space,
                 const Found& found);

/// The case with its steps' times in the same shares, so that they add up to
/// what a clock tells above this [s].
Case with_time(Case c, double plating);

/// Solved in full, with its figures; once more where rounding has left it a
/// little thin.
SetUp solved_set_up(std::string name, Case c, const Progress& progress = {});

/// "two anodes, turned once".
std::string name_of(const PlanStructure& structure,
                    const PlanSchedule& schedule);

}  // namespace thinspot::solver
