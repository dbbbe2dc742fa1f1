#pragma once

#include <string>
#include <vector>

// What sentences of errors, terminal and page are put together with.
namespace thinspot::io {

/// "a, b or c"; empty of none.
std::string with_or(const std::vector<std::string>& items);

/// "a, b and c"; empty of none.
std::string with_and(const std::vector<std::string>& items);

/// "Copper" for "copper"; letters beyond ASCII stay.
std::string capital(std::string text);

}  // namespace thinspot::io
