#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace thinspot::io {

/// Writes a file, replacing what is there.
/// @returns "" or why not; then the file may be there in part.
std::string write_bytes(const std::filesystem::path& file,
                        std::string_view content);

/// Writes a picture that stands alone: whole under a temporary name beside it,
/// then renamed.
/// @throws OutputError, also where a file of that name is no picture: it may
///         be the user's.
void write_picture(const std::filesystem::path& file, std::string_view svg);

}  // namespace thinspot::io
