#pragma once

#include "io/addresses.hpp"
#include "io/sweep_axis.hpp"
#include "solver/case.hpp"

namespace thinspot::io {

/// Whether what an axis sets leaves geometry and meshes as they are, so that
/// its points can be answered on one mesh: supplies, polarization, the
/// solution's numbers, time, the target.
/// @param c  any point of the sweep
bool leaves_meshes(const Address& address, const SweepAxis& axis,
                   const solver::Case& c);

}  // namespace thinspot::io
