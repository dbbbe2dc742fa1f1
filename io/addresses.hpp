#pragma once

#include "io/case_keys.hpp"
#include "io/document.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A table of a case file, or one that it may get, with the keys that it takes.
struct AddressedTable {
  std::string address;          ///< "part", "anode.sheet"; "": the top level
  const Node* table = nullptr;  ///< nullptr: the file has no such table yet
  std::size_t element = 0;      ///< of a [[table]]
  const TableInfo* info = nullptr;
  std::vector<KeyInfo> keys;
};

/// What an address is of.
struct Address {
  const AddressedTable* place = nullptr;
  const KeyInfo* key = nullptr;
  std::optional<std::size_t> component = {};  ///< 0: x, 1: y
  std::string ingredient = {};                ///< of a recipe
};

/// How an element of a [[table]] is called in addresses: by its own name, or
/// by its number from 1.
std::string element_name(const Node& element, std::size_t index);

/// All tables of a document, and those that it may get.
std::vector<AddressedTable> addressed_tables(const Node& root);

/// @returns nullopt where no table has such a key.
std::optional<Address> resolve(const std::vector<AddressedTable>& all,
                               std::string_view address);

/// Every address, halves of points too.
std::vector<std::string> all_addresses(const std::vector<AddressedTable>& all);

}  // namespace thinspot::io
