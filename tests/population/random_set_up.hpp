#pragma once

#include "solver/case.hpp"

#include <cstdint>

namespace thinspot::tests {

/// A set-up drawn by lot, the same for the same seed: shape, sizes, place and
/// turn of the part, planar or axisymmetric; one to three anodes; conductivity,
/// polarization resistance (none, or so that conductivity times resistance is
/// 0.1 to 100 mm), rescaled or not; clips, shields, thieves, floating metal;
/// current, current density or voltage; averaging length, probes. All solids
/// are where they may be: the section can be built.
solver::Case random_set_up(std::uint64_t seed);

}  // namespace thinspot::tests
