#pragma once

#include <functional>
#include <optional>
#include <string>

namespace thinspot::mesh {

/// Runs `work` in a copy of this process and returns the text that it made.
/// For a library that a bad file can send round in circles, make ask for all
/// memory, or crash: the copy is then gone and we are not. What it prints goes
/// nowhere.
/// @returns nothing where it did not come to an end of its own, within
///          `seconds` and 4 GB of address space
std::optional<std::string> in_child(const std::function<std::string()>& work,
                                    int seconds);

}  // namespace thinspot::mesh
