#pragma once

#include "io/document.hpp"

#include <string>
#include <string_view>

namespace thinspot::io {

/// A case file's text with what its document says changed, and all else, the
/// user's comments and order too, left as it is. A changed line ends with a
/// comment on what it was; tables of the top level and elements of its lists
/// come and go as a whole. An element is taken for the old one of the same
/// line; one of line 0 is new.
/// @param from  what the text says
/// @param to    what it is to say
/// @pre the elements that stay are in their old order, new ones behind them
std::string rewritten(std::string_view text, const Node& from, const Node& to);

}  // namespace thinspot::io
