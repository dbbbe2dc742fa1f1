#pragma once

#include "solver/base_metals.hpp"

#include <filesystem>
#include <memory>

namespace thinspot::io {

/// preparation.toml and base_metals.toml of a folder.
/// @throws InputError where a file is not sound, or names a task, a kind of
///         solution or a base metal that there is not.
solver::BaseMetals read_base_metals(const std::filesystem::path& folder);

/// Those that come with the program, read once.
std::shared_ptr<const solver::BaseMetals> base_metals();

}  // namespace thinspot::io
