#pragma once

#include "mesh/errors.hpp"

#include <string>

namespace thinspot::io::cli {

/// Up to ten lines "file:line: key: what is wrong; what would be right", then
/// how many more there are.
std::string error_text(const InputError& error);

}  // namespace thinspot::io::cli
