#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// What the page answers other settings from: a JSON array, one object a layer
/// (one where there are none), in SI units, matrices as packed() has them.
/// {"why_not": …} where there is no model.
/// @returns "[]" where none was wanted.
std::string what_if_json(const solver::Result& result);

}  // namespace thinspot::io
