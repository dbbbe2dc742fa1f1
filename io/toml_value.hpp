#pragma once

#include "io/document.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace thinspot::io {

/// A value as it stands behind the equals sign; tables in braces.
std::string toml_value(const Node& value);

/// A name as it stands before it: in quotes where it must be.
std::string toml_key(std::string_view name);

/// Whether two values say the same; lines and the order of keys are of no
/// account.
bool say_the_same(const Node& a, const Node& b);

Node text_node(std::string text);
Node flag_node(bool flag);
Node number_node(double number);
Node texts_node(const std::vector<std::string>& texts);
Node table_node();

/// Sets a key of a table, or takes it out.
void put_key(Node& table, std::string_view name, Node value);
void drop_key(Node& table, std::string_view name);

}  // namespace thinspot::io
