#pragma once

#include "io/planned_case.hpp"
#include "solver/fit_runs.hpp"
#include "solver/reading.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// Sorts readings by the set-up in which they were taken: the case with what
/// each says under `with`, read as if it stood in the file.
/// @param readings  of the file of that name, for messages
/// @throws InputError with line and mend where `with` names what is no key of
///         the case, or where a reading is at a place that is not on the part.
std::vector<solver::Experiment> experiments_of(
    const DrawnCase& drawn, const std::vector<solver::Reading>& readings,
    const std::string& file);

}  // namespace thinspot::io
