#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// The cautions' names and where each comes from, as JSON text.
std::string caution_sources_json(const solver::Result& result);

}  // namespace thinspot::io
