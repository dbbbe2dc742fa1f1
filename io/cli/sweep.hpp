#pragma once

#include "io/sweep_crew.hpp"

#include <string>
#include <vector>

namespace thinspot::io::cli {

/// The verb, with the processes that compute.
/// @param elsewhere  who does; null: processes of this machine, made when all
///                   else is known to be sound
/// @returns the exit status
int sweep(const std::vector<std::string>& arguments, SweepWorkers* elsewhere);

}  // namespace thinspot::io::cli
