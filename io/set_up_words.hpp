#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// How far the copies on a rack differ; "" where there is one part.
std::string copies_words(const solver::Result& result);

/// What stays unplated, one sentence for each reason.
std::vector<std::string> bare_words(const solver::Result& result);

/// What clips, thieves and wires take of the current; "" where there are
/// neither clips nor thieves.
std::string shares_words(const solver::Result& result);

/// What happens at metal that nothing is connected to, a sentence or two each.
std::vector<std::string> floating_words(const solver::Result& result);

/// "clip top": its role goes with a name unless the name says it.
std::string with_role(const std::string& role, const std::string& name);

}  // namespace thinspot::io
