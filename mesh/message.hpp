#pragma once

#include <optional>
#include <string>

// Whole messages between this process and its children.
namespace thinspot::mesh {

/// A length, then the bytes.
/// @returns false where the other end is gone
bool send_message(int to, const std::string& text);

/// @returns nothing where the other end is gone
std::optional<std::string> receive_message(int from);

/// In a child: files and locks of the parent's are not to outlive it, and its
/// own last words are the parent's to tell. Standard streams go nowhere.
void let_go_of_files(int except);

}  // namespace thinspot::mesh
