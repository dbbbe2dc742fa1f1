#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::solver {

/// What a step does, in a few words: "flipped, sheet off".
std::string step_in_words(const StepResult& step);

/// Least and largest thickness over all parts after a step [m].
Interval thickness_after(const StepResult& step);

/// The result as it stands after a step: the section of that step, parts where
/// they are in it, with what has grown until then and the current densities of
/// that step. Spots move along; faces and bands stay those of all steps. Mesh,
/// potential and field are left empty.
Result after_step(const Result& result, std::size_t step);

/// The result with its parts where they stand in the last step, which is the
/// one whose field it holds.
Result as_left(Result result);

}  // namespace thinspot::solver
