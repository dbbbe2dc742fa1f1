#pragma once

#include "solver/case.hpp"

#include <filesystem>
#include <vector>

namespace thinspot::io {

/// The folder with the data that comes with the program: beside the installed
/// program (../share/thinspot/library), else in the source tree that it was
/// built from.
/// @throws NoResultError saying where it looked.
std::filesystem::path library_folder();

/// All metals of metals.toml in that folder.
/// @throws InputError where the file is not sound, with place.
std::vector<solver::Metal> read_metals(const std::filesystem::path& folder);

/// Those that come with the program, read once; where that fails, each call
/// reads anew. Safe to call from several threads.
/// @throws InputError likewise; NoResultError as library_folder().
const std::vector<solver::Metal>& library_metals();

}  // namespace thinspot::io
