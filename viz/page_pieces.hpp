#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace thinspot::viz {

/// JSON that no HTML reader can take for markup. "<" stands only inside JSON's
/// strings, where its escape means the same; U+2028 and U+2029 end lines for
/// old JavaScript.
std::string safe_in_script(std::string_view json);

/// A picture with its words above; nothing where there is no picture.
/// @param kind  class of the figure; empty: none
std::string figure(const std::string& caption, const std::string& svg,
                   const std::string& kind = "");

/// The picture with other ids, so that a page can hold two of a kind.
/// @param svg  as viz/svg writes it
std::string with_ids(const std::string& svg, std::string_view prefix);

/// The page with a text in place of each mark. Marks are looked for in the page
/// alone, in their order, never in what has been put in: a title may read like
/// one.
/// @pre the page has every mark, in this order
std::string filled_in(
    std::string_view page,
    const std::vector<std::pair<std::string_view, std::string_view>>& pieces);

}  // namespace thinspot::viz
