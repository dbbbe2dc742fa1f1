#pragma once

#include "io/case_keys.hpp"
#include "io/table_reader.hpp"

#include <filesystem>
#include <functional>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// Reads a file of the library that holds one kind of table, [[table]].
/// @param what       what each is, for messages: "metal"
/// @param read_each  called with each of them, in order
/// @throws InputError with everything that is wrong with the file, names that
///         occur twice among it.
void read_library_list(const std::filesystem::path& file,
                       std::string_view table, const std::vector<KeyInfo>& keys,
                       const std::function<void(TableReader&)>& read_each);

}  // namespace thinspot::io
