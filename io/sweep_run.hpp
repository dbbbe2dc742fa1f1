#pragma once

#include "io/sweep.hpp"
#include "io/sweep_crew.hpp"
#include "io/sweep_store.hpp"
#include "solver/progress.hpp"

#include <cstdint>

namespace thinspot::io {

/// Hands out all points that have no row yet and stores what comes back. Each
/// worker has a stretch of neighbours, which share geometry; who has none left
/// takes half of the longest that another has. Results do not depend on who
/// computes what.
/// @returns how many points were computed
/// @throws OutputError where they cannot be stored.
/// @throws NoResultError where nobody is left to compute.
std::uint64_t run_sweep(const Sweep& sweep, SweepWorkers& workers,
                        SweepStore& store, const solver::Progress& progress);

}  // namespace thinspot::io
