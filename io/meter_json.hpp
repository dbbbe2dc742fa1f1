#pragma once

#include "solver/result.hpp"

#include <string>

namespace thinspot::io {

/// `meter`, `gas` and `throwing_power` (null where there is none) of a result,
/// one JSON object as text.
std::string meter_json(const solver::Result& result);

}  // namespace thinspot::io
