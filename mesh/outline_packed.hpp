#pragma once

#include "mesh/errors.hpp"
#include "mesh/outline_drawing.hpp"

#include <string>

namespace thinspot::mesh {

/// A drawing, or what is wrong with it, as text that goes from one process to
/// another.
std::string packed(const Drawing& drawing);
std::string packed(const Problem& problem);

/// @throws InputError where a problem was packed
Drawing unpacked(const std::string& text);

}  // namespace thinspot::mesh
