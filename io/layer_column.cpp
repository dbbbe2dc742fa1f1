#include "io/layer_column.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

std::string layer_column(const solver::Result& result, std::size_t layer) {
  std::string metal = result.layers[layer].metal;
  // Names may hold spaces, brackets, letters of any script.
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9');
  };
  std::erase_if(metal, [&](char c) { return !plain(c); });
  return fmt::format("layer_{}{}{}_um", layer + 1, metal.empty() ? "" : "_",
                     metal);
}

}  // namespace thinspot::io
