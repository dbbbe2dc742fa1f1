#pragma once

#include "solver/result.hpp"

#include <string>

// What a result means at the bench besides thickness, as JSON text.
namespace thinspot::io {

/// An object with burn, burn_limit, working_range, anode_to_cathode, edge_build
/// and why; what nothing is known of is left out.
std::string appraisal_json(const solver::Result& result);

/// A list of the anodes, each with its limit and how it stands to it.
std::string anodes_json(const solver::Result& result);

/// A list of metal that nothing is connected to.
std::string floating_json(const solver::Result& result);

}  // namespace thinspot::io
