#pragma once

#include <string>
#include <string_view>

namespace thinspot::io {

/// How people call a quantity of a case: "conductivity of the solution".
/// @param key  as for_each_quantity has it
std::string quantity_in_words(std::string_view key);

}  // namespace thinspot::io
