#pragma once

#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

/// A metal dissolved into an acid by current.
struct DissolveOrder {
  std::string metal, acid;       ///< acid: empty, any
  double current = 0;            ///< [A]
  double time = 0;               ///< [s]
  std::optional<double> volume;  ///< [m3]
};

/// @throws InputError where metal or acid is not known.
std::vector<std::string> dissolving_in_words(const DissolveOrder& order);

}  // namespace thinspot::io
