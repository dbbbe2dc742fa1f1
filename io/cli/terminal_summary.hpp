#pragma once

#include "io/words.hpp"
#include "solver/result.hpp"

#include <filesystem>

namespace thinspot::io::cli {

/// Prints what a person at the bench wants to know, in trade units and at most
/// some forty lines: verdict, thickness, meter, faces, what was assumed,
/// cautions; last the file to open.
void print_summary(const solver::Result& result, const Words& words,
                   const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
