#pragma once

#include "io/case_keys.hpp"

#include <string>

namespace thinspot::io {

/// How a key is to be given: `width = "24 mm"`.
std::string example_of(const KeyInfo& info);

/// "1 um .. 10 m"
std::string range_text(const Limits& limits);

/// True where the value is within the limits (a little rounding allowed).
bool within(double value, const Limits& limits);

}  // namespace thinspot::io
