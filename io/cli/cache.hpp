#pragma once

#include "io/cli/options.hpp"

#include <filesystem>

namespace thinspot::io::cli {

/// `--no-cache`, for verbs that keep what they mesh.
inline constexpr Option no_cache{
    "no-cache", "",
    "mesh all anew, and keep nothing of it in the cache folder"};

/// Where what was meshed is kept from run to run: $XDG_CACHE_HOME/thinspot, or
/// else ~/.cache/thinspot; empty where neither is a whole path.
std::filesystem::path cache_folder();

/// Begins with what takes long to load, unless it was kept, and keeps from here
/// on what is meshed, unless the line says no.
void use_cache(const CommandLine& line);

}  // namespace thinspot::io::cli
