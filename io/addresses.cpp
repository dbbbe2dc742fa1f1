#include "io/addresses.hpp"

#include "io/quote.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace thinspot::io {

namespace {

std::string address_in(const AddressedTable& place, std::string_view key) {
  return place.address.empty() ? std::string(key)
                               : fmt::format("{}.{}", place.address, key);
}

AddressedTable place_of_table(std::string address, const Node* table,
                              std::size_t element, const TableInfo& info) {
  const Node* shape = table ? table->find("shape") : nullptr;
  return {std::move(address), table, element, &info,
          keys_with_shape(info, shape ? shape->text : "")};
}

/// Of a recipe, the one table whose keys are free: names of substances.
/// @param rest  of an address behind the key
std::string ingredient_in(const KeyInfo& key, std::string_view rest) {
  if (key.name != "made_of" || !rest.starts_with('.')) return "";
  return std::string(trimmed(rest.substr(1)));
}

/// What of an address is behind that of a table; nullopt where it is of
/// another table.
std::optional<std::string_view> behind(const AddressedTable& place,
                                       std::string_view address) {
  if (place.address.empty()) return address;
  if (!address.starts_with(place.address)) return std::nullopt;
  const std::string_view rest = address.substr(place.address.size());
  if (!rest.starts_with('.')) return std::nullopt;
  return rest.substr(1);
}

}  // namespace

std::string element_name(const Node& element, std::size_t index) {
  const Node* name = element.find("name");
  if (name && is_printable(name->text, 60) &&
      name->text.find('=') == std::string::npos)
    return name->text;
  return std::to_string(index + 1);
}

std::vector<AddressedTable> addressed_tables(const Node& root) {
  std::vector<AddressedTable> all;
  for (const TableInfo& info : case_tables()) {
    if (info.name.empty()) {
      all.push_back(place_of_table("", &root, 0, info));
      continue;
    }
    const Node* const found = root.find(info.name);
    const std::string name(info.name);
    if (!info.repeated) {
      if (!found || found->kind == Node::Kind::table)
        all.push_back(place_of_table(name, found, 0, info));
      continue;
    }
    if (!found || found->kind != Node::Kind::list) continue;
    const std::size_t count = std::min(found->items.size(), info.most);
    for (std::size_t k = 0; k < count; ++k)
      if (found->items[k].kind == Node::Kind::table)
        all.push_back(
            place_of_table(name + "." + element_name(found->items[k], k),
                           &found->items[k], k, info));
  }
  return all;
}

std::optional<Address> resolve(const std::vector<AddressedTable>& all,
                               std::string_view address) {
  for (const AddressedTable& place : all) {
    const auto own = behind(place, address);
    if (!own) continue;
    for (const KeyInfo& key : place.keys) {
      if (!own->starts_with(key.name)) continue;
      const std::string_view rest = own->substr(key.name.size());
      if (rest.empty()) return Address{&place, &key};
      const std::string ingredient = ingredient_in(key, rest);
      if (!ingredient.empty()) return Address{&place, &key, {}, ingredient};
      if (key.form != Form::point) continue;
      if (rest == ".x") return Address{&place, &key, 0};
      if (rest == ".y") return Address{&place, &key, 1};
    }
  }
  return std::nullopt;
}

std::vector<std::string> all_addresses(const std::vector<AddressedTable>& all) {
  std::vector<std::string> result;
  for (const AddressedTable& place : all)
    for (const KeyInfo& key : place.keys) {
      result.push_back(address_in(place, key.name));
      if (key.form != Form::point) continue;
      result.push_back(result.back() + ".x");
      result.push_back(address_in(place, key.name) + ".y");
    }
  return result;
}

}  // namespace thinspot::io
