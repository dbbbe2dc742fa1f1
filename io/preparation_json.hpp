#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// A list with what each layer needs before it is plated, as JSON text.
std::string preparation_json(const solver::Result& result);

/// The cautions' names and where each comes from, as JSON text.
std::string caution_sources_json(const solver::Result& result);

/// How the target came out, and whose class it is, as JSON text.
/// @param asked  what was wanted
std::string target_json(const solver::TargetResult& t,
                        const solver::Target& asked);

}  // namespace thinspot::io
