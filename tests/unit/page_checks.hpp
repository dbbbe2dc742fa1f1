#pragma once

#include <cstddef>
#include <string>

namespace thinspot::tests {

/// How often a piece stands in a text.
std::size_t count(const std::string& text, const std::string& piece);

/// What stands in a page's script of data.
/// @param id  of that script
std::string data_in(const std::string& page, const std::string& id);

/// Catch checks that a page needs no network and no other file, makes no
/// markup out of text, and has a policy that says so.
/// @param scripts  it has some
void check_stands_alone(const std::string& page, bool scripts = true);

}  // namespace thinspot::tests
