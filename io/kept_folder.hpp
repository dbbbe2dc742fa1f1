#pragma once

#include "solver/kept_result.hpp"

#include <filesystem>

namespace thinspot::io {

/// Reads back what `thinspot solve` left in a folder: summary.json and
/// surface.csv, which has to be as long as the summary says.
/// @throws InputError in one line that names the folder and the file: where it
///         is missing, unfinished, damaged, not ours, of a newer schema, or
///         larger than results ever are
solver::KeptResult read_kept_folder(const std::filesystem::path& folder);

}  // namespace thinspot::io
