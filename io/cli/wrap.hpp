#pragma once

#include <string>
#include <string_view>

namespace thinspot::io::cli {

/// Columns that UTF-8 text takes on a terminal, one a code point.
std::size_t columns(std::string_view text);

/// Line breaks in a text.
std::size_t count_lines(std::string_view text);

/// Text padded with blanks on the right, or on the left.
std::string padded(std::string_view text, std::size_t width);
std::string padded_left(std::string_view text, std::size_t width);

/// Broken at blanks into lines of at most `width` columns, each ended by a line
/// break; lines after the first begin with `indent` blanks.
std::string wrapped(std::string_view text, std::size_t indent = 0,
                    std::size_t width = 80);

/// The same with the first line set in as well, by `first` blanks.
/// @pre first > 0
std::string wrapped_in(std::string_view text, std::size_t first,
                       std::size_t indent);

}  // namespace thinspot::io::cli
