#pragma once

#include "viz/window_data.hpp"

#include <map>
#include <string>

namespace thinspot::viz {

/// Reads what a run left, by the files' names: steps.pvd, the surfaces that it
/// names, and section.vtu. VTK's readers trust what they are given, so they run
/// in a process of their own; what comes back is checked.
/// @param files  name and content; what steps.pvd does not name is not looked
///               at
/// @throws InputError in one line whose key is the file that is damaged or
///         missing.
WindowData read_result_files(const std::map<std::string, std::string>& files);

}  // namespace thinspot::viz
