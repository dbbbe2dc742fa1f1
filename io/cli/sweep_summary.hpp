#pragma once

#include "io/output_folder.hpp"
#include "io/sweep_files.hpp"

#include <string>

namespace thinspot::io::cli {

/// What a sweep says on a terminal, at most 40 lines: how many points have a
/// result and why others have none, the best ones and how to solve them, and
/// where the files are.
std::string sweep_summary(const Sweep& sweep, const SweepOverview& overview,
                          const OutputFolder& folder);

}  // namespace thinspot::io::cli
