#pragma once

#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// The usual warnings that a set-up calls for. They do not replace safety data
/// sheets, local codes or licensed practice, and say so.
std::vector<std::string> cautions_for(const Case& c);

/// What the model leaves out and by how much, with figures where there are
/// any.
std::vector<std::string> model_notes(const Case& c, double wagner);

}  // namespace thinspot::solver
