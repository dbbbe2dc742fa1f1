#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// The candidate that takes the fewest single-letter changes (or swaps of
/// neighbours) to reach, where that is near enough to be a slip: at most 2, or
/// a third of the length.
std::optional<std::string> nearest(std::string_view text,
                                   const std::vector<std::string>& candidates);

}  // namespace thinspot::io
