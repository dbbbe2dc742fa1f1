#pragma once

#include "io/case_keys.hpp"
#include "io/table_reader.hpp"

#include <filesystem>
#include <functional>
#include <string>
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

/// The tables of a library file that repeat under one name, each given to
/// `read`. @returns how many there were.
/// @param root  of the file
std::size_t for_each_table(const Node& root, std::string_view name,
                           const std::vector<KeyInfo>& keys, Findings& findings,
                           const std::function<void(TableReader&)>& read);

/// Notes what stands at the top of a library file and is none of these tables.
void refuse_others(const Node& root, const std::vector<std::string>& tables,
                   Findings& findings);

/// What a text of the library may be left out to.
std::string text_or_empty(TableReader& t, std::string_view key);
std::vector<std::string> texts_or_none(TableReader& t, std::string_view key);

}  // namespace thinspot::io
