#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace thinspot::mesh {

/// Appends what a file or pipe holds up to its end, but no more than one byte
/// beyond `most` in all.
/// @returns false where reading fails
bool read_all(int descriptor, std::uintmax_t most, std::string& bytes);

/// @returns false where writing fails, with errno
bool write_all(int descriptor, std::string_view bytes);

}  // namespace thinspot::mesh
