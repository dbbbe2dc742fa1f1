#include "mesh/lower_case.hpp"

#include <algorithm>
#include <cctype>

namespace thinspot::mesh {

std::string lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char ch) {
    return static_cast<char>(std::tolower(ch));
  });
  return text;
}

}  // namespace thinspot::mesh
