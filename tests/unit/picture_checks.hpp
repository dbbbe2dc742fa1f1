#pragma once

#include <cstddef>
#include <string>

namespace thinspot::tests {

/// Catch checks of any picture of ours: sound markup, below 400 kB, a title,
/// no coordinate that is not one, every text on the page and none on another.
/// @param least  texts that it has to have
void check_picture(const std::string& svg, std::size_t least = 11);

/// The same of a sheet of paper, which is so many millimetres wide and high.
void check_sheet(const std::string& svg, double width, double height);

/// Whether a text of the picture holds these words.
bool says(const std::string& svg, const std::string& words);

}  // namespace thinspot::tests
