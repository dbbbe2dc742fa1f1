#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// How the target came out, and whose class it is, as JSON text.
/// @param asked  what was wanted
std::string target_json(const solver::TargetResult& t,
                        const solver::Target& asked);

}  // namespace thinspot::io
