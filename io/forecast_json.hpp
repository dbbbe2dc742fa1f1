#pragma once

#include "solver/forecast.hpp"

#include <string>

namespace thinspot::io {

/// How sure the forecast is, as an object of summary.json.
std::string forecast_json(const solver::Forecast& forecast);

}  // namespace thinspot::io
