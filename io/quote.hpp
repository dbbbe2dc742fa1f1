#pragma once

#include <string>
#include <string_view>

namespace thinspot::io {

/// Text for a message: cut at `longest` characters, control characters and
/// broken UTF-8 shown as "?".
std::string printable(std::string_view text, std::size_t longest);

/// The user's own text between quotes, likewise cut at 40 characters.
std::string in_quotes(std::string_view text);

/// True where text is sound UTF-8 without control characters, holds something
/// besides spaces, and has at most `longest` characters.
bool is_printable(std::string_view text, std::size_t longest);

/// Without spaces and tabs at both ends.
std::string_view trimmed(std::string_view text);

}  // namespace thinspot::io
