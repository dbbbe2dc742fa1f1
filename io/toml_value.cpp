#include "io/toml_value.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace thinspot::io {

namespace {

std::string basic_string(std::string_view text) {
  std::string result = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') result += '\\';
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
      result += fmt::format("\\u{:04X}", static_cast<unsigned>(c));
    else
      result += c;
  }
  return result + '"';
}

bool is_bare(std::string_view name) {
  return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           (c >= '0' && c <= '9') || c == '_' || c == '-';
  });
}

}  // namespace

std::string toml_key(std::string_view name) {
  return is_bare(name) ? std::string(name) : basic_string(name);
}

std::string toml_value(const Node& value) {
  std::vector<std::string> inner;
  switch (value.kind) {
    case Node::Kind::text: return basic_string(value.text);
    case Node::Kind::number: return fmt::format("{}", value.number);
    case Node::Kind::flag: return value.flag ? "true" : "false";
    case Node::Kind::list:
      for (const Node& item : value.items) inner.push_back(toml_value(item));
      return fmt::format("[{}]", fmt::join(inner, ", "));
    case Node::Kind::table:
      for (const Member& m : value.members)
        inner.push_back(toml_key(m.name) + " = " + toml_value(m.value));
      return fmt::format("{{ {} }}", fmt::join(inner, ", "));
    case Node::Kind::other: break;
  }
  return "";
}

bool say_the_same(const Node& a, const Node& b) {
  if (a.kind != b.kind || a.items.size() != b.items.size() ||
      a.members.size() != b.members.size())
    return false;
  if (a.kind == Node::Kind::text && a.text != b.text) return false;
  if (a.kind == Node::Kind::number && a.number != b.number) return false;
  if (a.kind == Node::Kind::flag && a.flag != b.flag) return false;
  for (std::size_t k = 0; k < a.items.size(); ++k)
    if (!say_the_same(a.items[k], b.items[k])) return false;
  return std::all_of(a.members.begin(), a.members.end(), [&](const Member& m) {
    const Node* other = b.find(m.name);
    return other && say_the_same(m.value, *other);
  });
}

Node text_node(std::string text) {
  Node node;
  node.kind = Node::Kind::text;
  node.text = std::move(text);
  return node;
}

Node flag_node(bool flag) {
  Node node;
  node.kind = Node::Kind::flag;
  node.flag = flag;
  return node;
}

Node number_node(double number) {
  Node node;
  node.kind = Node::Kind::number;
  node.number = number;
  return node;
}

Node texts_node(const std::vector<std::string>& texts) {
  Node node;
  node.kind = Node::Kind::list;
  for (const std::string& text : texts) node.items.push_back(text_node(text));
  return node;
}

Node table_node() {
  Node node;
  node.kind = Node::Kind::table;
  return node;
}

void put_key(Node& table, std::string_view name, Node value) {
  if (Node* old = table.find(name))
    *old = std::move(value);
  else
    table.members.push_back({std::string(name), std::move(value)});
}

void drop_key(Node& table, std::string_view name) {
  std::erase_if(table.members, [&](const Member& m) { return m.name == name; });
}

}  // namespace thinspot::io
