#pragma once

#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What a planned case does otherwise than the drawn one, in the order in which
/// hands do it: "move the sheet from 35 mm to 22 mm from the part", "set 0.4 A
/// in place of 0.33 A", "flip the part after 18 min". No capital, no full stop.
std::vector<std::string> plan_changes(const solver::Case& drawn,
                                      const solver::Case& planned);

/// Of what stands in the tank, and its level, alone.
std::vector<std::string> tank_changes(const solver::Case& drawn,
                                      const solver::Case& planned);

/// Of its steps and times alone.
std::vector<std::string> step_changes(const solver::Case& drawn,
                                      const solver::Case& planned);

}  // namespace thinspot::io
