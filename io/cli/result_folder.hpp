#pragma once

#include "io/cli/options.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace thinspot::io::cli {

/// Whether a command line names one folder of results rather than case files.
/// @throws InputError where it names a folder beside something else, an option
///         that is for case files alone, one file out of such a folder, or what
///         is not there.
bool is_result_folder(const CommandLine& line);

/// The files of a run that a window shows, by name; what steps.pvd names need
/// not be among them.
/// @throws InputError where the folder holds no finished results, or a file
///         that is too large or cannot be read.
std::map<std::string, std::string> read_result_folder(
    const std::filesystem::path& folder);

}  // namespace thinspot::io::cli
