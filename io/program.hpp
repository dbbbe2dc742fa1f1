#pragma once

#include <string_view>

namespace thinspot::io {

inline constexpr std::string_view program_name = "thinspot";

/// As the build set it, "0.1.0".
std::string_view program_version();

}  // namespace thinspot::io
