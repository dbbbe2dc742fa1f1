#pragma once

#include "solver/fit.hpp"

#include <string>

namespace thinspot::tests {

/// A fit made without a search, of the case that it is given: conductivity and
/// slope fitted and correlated, the offset left alone, a voltage at 0.2 A, a
/// mass, and a thickness that does not go with them.
solver::Fit fit_sample(const solver::Case& c);

}  // namespace thinspot::tests
