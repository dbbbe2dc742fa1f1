#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

// What a result means at the bench besides thickness, in sentences: of several
// layers each by itself.
namespace thinspot::io {

/// Where the deposit likely burns, of the step where it is worst.
std::vector<std::string> burn_words(const solver::Result& result);

/// Anodes above or near their limit, too little of them, metal that hangs
/// unconnected.
std::vector<std::string> anode_words(const solver::Result& result);

/// What the heaviest spot likely grows; "" where nothing is known of it.
std::vector<std::string> edge_words(const solver::Result& result);

/// Which share of the part lies where the solution usually plates well.
std::vector<std::string> range_words(const solver::Result& result);

}  // namespace thinspot::io
