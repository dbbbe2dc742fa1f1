#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// A list with what each layer needs before it is plated, as JSON text.
std::string preparation_json(const solver::Result& result);

}  // namespace thinspot::io
