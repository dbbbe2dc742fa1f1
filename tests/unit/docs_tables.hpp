#pragma once

#include <string>
#include <vector>

namespace thinspot::tests {

/// Cells of a table's row on a page of docs/, without the spaces around them.
/// @param line  begins with "|"
std::vector<std::string> cells_of(const std::string& line);

}  // namespace thinspot::tests
