#include "docs_tables.hpp"

#include <sstream>

namespace thinspot::tests {

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line.substr(1));
  for (std::string cell; std::getline(in, cell, '|');) {
    const auto from = cell.find_first_not_of(' ');
    const auto to = cell.find_last_not_of(' ');
    cells.push_back(
        from == std::string::npos ? "" : cell.substr(from, to - from + 1));
  }
  return cells;
}

}  // namespace thinspot::tests
