#pragma once

#include <string>
#include <vector>

namespace thinspot::io {

struct BathPlan;

/// One line for each thing to know.
std::vector<std::string> bath_in_words(const BathPlan& plan);

}  // namespace thinspot::io
