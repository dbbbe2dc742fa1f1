#include "io/override.hpp"

#include "io/addresses.hpp"
#include "io/nearest.hpp"
#include "io/number.hpp"
#include "io/quote.hpp"
#include "io/toml_value.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

constexpr std::size_t kLongestOverride = 1000;  // bytes

Node value_node(const std::string& key, std::string_view text) {
  Node node = text_node(std::string(text));
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
  if (!table.find(found.key->name))
    put_key(table, found.key->name, table_node());
  Node& recipe = *table.find(found.key->name);
  if (recipe.kind != Node::Kind::table)
    throw InputError(std::string(found.key->name), "is no table",
                     "made_of = { water = \"500 ml\" }");
  put_key(recipe, found.ingredient, std::move(value));
}

/// Of forms that take "2" for a text.
bool is_text(Form form) {
  return form == Form::text || form == Form::name || form == Form::choice;
}

/// The table to set a key of; made where there is none.
Node& table_of(Node& root, const AddressedTable& place) {
  if (place.info->name.empty()) return root;
  if (!root.find(place.info->name))
    put_key(root, place.info->name, table_node());
  Node& found = *root.find(place.info->name);
  return place.info->repeated ? found.items[place.element] : found;
}

}  // namespace

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
  const std::vector<AddressedTable> all = addressed_tables(root);
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
  if (is_text(found->key->form) && !value.text.empty())
    value.kind = Node::Kind::text;
  Node& table = table_of(root, *found->place);
  if (found->component)
    put_component(table, address, *found, std::move(value));
  else if (!found->ingredient.empty())
    put_ingredient(table, *found, std::move(value));
  else
    put_key(table, found->key->name, std::move(value));
  for (std::string_view other : found->key->instead_of) drop_key(table, other);
}

}  // namespace thinspot::io
