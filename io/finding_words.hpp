#pragma once

#include "solver/inspect.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// A sentence for each finding, in their order. The same thing seen at several
/// copies on a rack or by several solids is one sentence.
std::vector<std::string> sentences_for(const solver::Inspection& inspection,
                                       const solver::Case& c);

/// "anode sheet", "the part", "copy 2" for the key of a solid.
std::string solid_in_words(const mesh::Section& section,
                           const std::string& key);

}  // namespace thinspot::io
