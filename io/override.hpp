#pragma once

#include "io/document.hpp"

#include <string>

namespace thinspot::io {

/// Puts "key=value" into the document, as given to --set. A value that looks
/// like a list or a text in quotes is read as TOML, anything else as it stands.
/// Keys that cannot stand beside the new one are dropped.
/// @throws InputError where there is no such address, with the nearest one.
void apply_override(Node& root, const std::string& key_and_value);

}  // namespace thinspot::io
