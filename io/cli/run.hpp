#pragma once

#include <string>
#include <vector>

namespace thinspot::io::cli {

/// What the program does with its command line, name of the program left out.
/// @returns the exit status: 0 done, 1 target not met under --strict
/// @throws InputError, OutputError, NoResultError
int run(const std::vector<std::string>& arguments);

}  // namespace thinspot::io::cli
