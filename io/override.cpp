#include "io/override.hpp"

#include "io/case_keys.hpp"
#include "io/nearest.hpp"
#include "io/number.hpp"
#include "io/quote.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace thinspot::io {

namespace {

constexpr std::size_t kLongestOverride = 1000;  // bytes

/// A table of the document, its address and the keys that it takes.
struct Place {
  std::string address;
  Node* table = nullptr;  ///< nullptr: the file has no such table yet
  const TableInfo* info = nullptr;
  std::vector<KeyInfo> keys;
};

std::string address_in(const Place& place, std::string_view key) {
  return place.address.empty() ? std::string(key)
                               : fmt::format("{}.{}", place.address, key);
}

Place place_of_table(std::string address, Node* table, const TableInfo& info) {
  const Node* shape = table ? table->find("shape") : nullptr;
  return {std::move(address), table, &info,
          keys_with_shape(info, shape ? shape->text : "")};
}

std::vector<Place> places(Node& root) {
  std::vector<Place> all;
  for (const TableInfo& info : case_tables()) {
    if (info.name.empty()) {
      all.push_back(place_of_table("", &root, info));
      continue;
    }
    Node* const found = root.find(info.name);
    const std::string name(info.name);
    if (!info.repeated) {
      if (!found || found->kind == Node::Kind::table)
        all.push_back(place_of_table(name, found, info));
      continue;
    }
    if (!found || found->kind != Node::Kind::list) continue;
    const std::size_t count = std::min(found->items.size(), info.most);
    for (std::size_t k = 0; k < count; ++k)
      if (found->items[k].kind == Node::Kind::table)
        all.push_back(
            place_of_table(name + "." + element_name(found->items[k], k),
                           &found->items[k], info));
  }
  return all;
}

struct Address {
  Place* place = nullptr;
  const KeyInfo* key = nullptr;
  std::optional<std::size_t> component;  ///< 0: x, 1: y
  std::string ingredient = {};           ///< of a recipe
};

/// Of a recipe, the one table whose keys are free: names of substances.
std::string ingredient_in(const KeyInfo& key, std::string_view whole,
                          std::string_view address) {
  const std::string start = std::string(whole) + ".";
  if (key.name != "made_of" || !address.starts_with(start)) return "";
  return std::string(trimmed(address.substr(start.size())));
}

std::optional<Address> resolve(std::vector<Place>& all,
                               std::string_view address) {
  for (Place& place : all)
    for (const KeyInfo& key : place.keys) {
      const std::string whole = address_in(place, key.name);
      if (address == whole) return Address{&place, &key, {}};
      const std::string ingredient = ingredient_in(key, whole, address);
      if (!ingredient.empty()) return Address{&place, &key, {}, ingredient};
      if (key.form != Form::point) continue;
      if (address == whole + ".x") return Address{&place, &key, 0};
      if (address == whole + ".y") return Address{&place, &key, 1};
    }
  return std::nullopt;
}

std::vector<std::string> all_addresses(const std::vector<Place>& all) {
  std::vector<std::string> result;
  for (const Place& place : all)
    for (const KeyInfo& key : place.keys) {
      result.push_back(address_in(place, key.name));
      if (key.form != Form::point) continue;
      result.push_back(result.back() + ".x");
      result.push_back(address_in(place, key.name) + ".y");
    }
  return result;
}

Node value_node(const std::string& key, std::string_view text) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = text;
  if (text.starts_with('[') || text.starts_with('{') || text.starts_with('"') ||
      text.starts_with('\'')) {
    try {
      Node document = parse_document(fmt::format("v = {}", text), "--set");
      Node* value = document.find("v");
      value->line = 0;
      return *value;
    } catch (const InputError& error) {
      throw InputError(key, in_quotes(text) + ": " + error.problems()[0].wrong,
                       "a list stands as [\"45 mm\", \"50 mm\"]");
    }
  }
  if (text == "true" || text == "false") {
    node.kind = Node::Kind::flag;
    node.flag = text == "true";
  }
  const NumberStart number = read_number(text);
  if (number.length > 0 && number.length == text.size()) {
    node.kind = Node::Kind::number;
    node.number = number.number;
  }
  return node;
}

void put(Node& table, std::string_view name, Node value) {
  if (Node* old = table.find(name))
    *old = std::move(value);
  else
    table.members.push_back({std::string(name), std::move(value)});
}

void drop(Node& table, const std::vector<std::string_view>& names) {
  std::erase_if(table.members, [&](const Member& m) {
    return std::find(names.begin(), names.end(), m.name) != names.end();
  });
}

void put_component(Node& table, const std::string& address,
                   const Address& found, Node value) {
  Node* const list = table.find(found.key->name);
  if (!list || list->kind != Node::Kind::list || list->items.size() != 2)
    throw InputError(address, "sets half of a point that is not there",
                     "set both, as in " +
                         address.substr(0, address.size() - 2) +
                         "=[\"45 mm\", \"50 mm\"]");
  list->items[*found.component] = std::move(value);
  list->line = 0;
}

void put_ingredient(Node& table, const Address& found, Node value) {
  if (!table.find(found.key->name)) {
    Node recipe;
    recipe.kind = Node::Kind::table;
    put(table, found.key->name, std::move(recipe));
  }
  Node& recipe = *table.find(found.key->name);
  if (recipe.kind != Node::Kind::table)
    throw InputError(std::string(found.key->name), "is no table",
                     "made_of = { water = \"500 ml\" }");
  put(recipe, found.ingredient, std::move(value));
}

}  // namespace

std::string element_name(const Node& element, std::size_t index) {
  const Node* name = element.find("name");
  if (name && is_printable(name->text, 60) &&
      name->text.find('=') == std::string::npos)
    return name->text;
  return std::to_string(index + 1);
}

void apply_override(Node& root, const std::string& key_and_value) {
  if (key_and_value.size() > kLongestOverride)
    throw InputError("", in_quotes(key_and_value) + " is too long",
                     "--set part.diameter=\"25 mm\"");
  const auto equals = key_and_value.find('=');
  const std::string address(
      trimmed(std::string_view(key_and_value).substr(0, equals)));
  if (equals == std::string::npos)
    throw InputError("", in_quotes(key_and_value) + " has no equals sign",
                     "--set part.diameter=\"25 mm\"");
  std::vector<Place> all = places(root);
  const auto found = resolve(all, address);
  if (!found) {
    const auto near = nearest(address, all_addresses(all));
    throw InputError(
        is_printable(address, 60) ? address : in_quotes(address),
        "is not a key of this case",
        near ? fmt::format("is \"{}\" meant?", *near)
             : "table.key or table.name.key, as in part.diameter or "
               "anode.sheet.gap");
  }
  Node value = value_node(
      address, trimmed(std::string_view(key_and_value).substr(equals + 1)));
  const Place& place = *found->place;
  if (!place.table) {
    Node table;
    table.kind = Node::Kind::table;
    put(root, place.info->name, std::move(table));
  }
  Node& table = place.table ? *place.table : *root.find(place.info->name);
  if (found->component)
    put_component(table, address, *found, std::move(value));
  else if (!found->ingredient.empty())
    put_ingredient(table, *found, std::move(value));
  else
    put(table, found->key->name, std::move(value));
  drop(table, found->key->instead_of);
}

}  // namespace thinspot::io
