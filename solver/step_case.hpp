#pragma once

#include "solver/case.hpp"

namespace thinspot::solver {

/// The case with one of its steps alone, and all that the step changes done:
/// parts moved, anodes cut off (floating from then on) or taken out, clips that
/// hold the part, supply, and the solution as it is then. Probes still lie
/// where they are drawn.
Case case_of_step(const Case& c, std::size_t step);

/// The solution as it is in a step: as last told at or before it; where only a
/// temperature is, the conductivity follows that.
Solution solution_in(const Case& c, std::size_t step);

/// True where all stands alike in two steps.
bool same_places(const Step& a, const Step& b);

/// True where, besides, all supplies are set alike.
bool same_currents(const Step& a, const Step& b);

/// The same of two cases of one step each, in solution that conducts alike.
bool same_field(const Case& a, const Case& b);

}  // namespace thinspot::solver
