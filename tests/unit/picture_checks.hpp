#pragma once

#include <string>

namespace thinspot::tests {

/// Catch checks of any picture of ours: sound markup, below 400 kB, a title,
/// no coordinate that is not one, every text on the page and none on another.
void check_picture(const std::string& svg);

/// Whether a text of the picture holds these words.
bool says(const std::string& svg, const std::string& words);

}  // namespace thinspot::tests
