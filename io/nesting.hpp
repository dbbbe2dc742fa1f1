#pragma once

#include <string_view>

namespace thinspot::io {

/// Looks through TOML text before it is parsed: half a million dots in a key
/// make a tree so deep that taking it down again exhausts the stack.
/// @returns the line where more than 16 brackets are open, or where a line has
///          more than 60 dots outside of texts; 0 where there is none.
int line_nested_too_deeply(std::string_view toml);

}  // namespace thinspot::io
