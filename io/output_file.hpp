#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

namespace thinspot::io {

/// Writes a file, replacing what is there.
/// @returns "" or why not; then the file may be there in part.
std::string write_bytes(const std::filesystem::path& file,
                        std::string_view content);

/// The same piece after piece.
/// @param more  puts the next one into the text; false: there is none
std::string write_bytes(const std::filesystem::path& file,
                        const std::function<bool(std::string&)>& more);

/// Kinds of pictures that stand alone, each known by how it begins.
enum class Picture { svg, png };

/// @throws OutputError where a picture of that kind cannot be put there: a file
///         of that name is none, so it may be the user's; no folder.
/// @param option  that names another file, for the message
void check_picture_target(const std::filesystem::path& file, Picture kind,
                          std::string_view option);

/// Writes a picture that stands alone: whole under a temporary name beside it,
/// then renamed.
/// @throws OutputError, likewise.
void write_picture(const std::filesystem::path& file, std::string_view content,
                   Picture kind = Picture::svg,
                   std::string_view option = "--out");

}  // namespace thinspot::io
