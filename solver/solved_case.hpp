#pragma once

#include "solver/progress.hpp"
#include "solver/result.hpp"
#include "solver/schedule.hpp"
#include "solver/wanted.hpp"

namespace thinspot::solver {

/// A case's result, and the steps that it was told from.
struct SolvedCase {
  Schedule schedule;
  Result result;  ///< all but how long it took in all
};

/// The main path, for those who go on with the steps: several layers are added
/// up from theirs. It stands in simulate.cpp.
/// @throws InputError, NoResultError as simulate.
SolvedCase solved_case(const Case& c, const Progress& progress,
                       const Wanted& wanted);

}  // namespace thinspot::solver
