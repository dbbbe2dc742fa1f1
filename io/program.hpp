#pragma once

#include <string_view>

namespace thinspot::io {

inline constexpr std::string_view program_name = "thinspot";

/// As the build set it, "0.1.0".
std::string_view program_version();

/// When and at which commit its figures were verified, "2026-11-25 at commit
/// abc123456"; as docs/verification.md has it, empty where that does not say.
std::string_view program_verified();

}  // namespace thinspot::io
