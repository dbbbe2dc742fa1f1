#pragma once

#include <string>

namespace thinspot::io {

struct BathPlan;

/// A bath's plan as numbers, a JSON object.
std::string bath_json(const BathPlan& plan);

}  // namespace thinspot::io
