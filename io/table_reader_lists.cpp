#include "io/table_reader.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

constexpr std::size_t kMostTexts = 100;
constexpr std::size_t kMostPlaces = 200;

bool is_pair(const Node& node) {
  return node.kind == Node::Kind::list && node.items.size() == 2;
}

}  // namespace

std::optional<std::vector<solver::Quantity>> TableReader::quantities(
    std::string_view key, std::size_t count) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  if (found->kind != Node::Kind::list) {
    const auto one = read(key, *found, info(key));
    return one ? std::optional(std::vector(count, *one)) : std::nullopt;
  }
  if (found->items.size() != count) {
    wrong(key, fmt::format("is a list of {}", found->items.size()),
          fmt::format("one for all, or a list of {}", count));
    return std::nullopt;
  }
  std::vector<solver::Quantity> result;
  for (const Node& item : found->items) {
    const auto one = read(key, item, info(key));
    if (!one) return std::nullopt;
    result.push_back(*one);
  }
  return result;
}

std::optional<std::vector<solver::Quantity>> TableReader::all_quantities(
    std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  const bool list = found->kind == Node::Kind::list;
  return quantities(key, list ? found->items.size() : 1);
}

std::string TableReader::as_written(std::string_view key) const {
  const Node* found = node(key);
  if (!found) return "";
  if (found->kind == Node::Kind::text) return found->text;
  return found->kind == Node::Kind::number ? fmt::format("{}", found->number)
                                           : "";
}

std::vector<std::string> TableReader::names() const {
  std::vector<std::string> all;
  if (table_)
    for (const Member& m : table_->members) all.push_back(m.name);
  return all;
}

TableReader TableReader::free_table(std::string_view key, const KeyInfo& each) {
  std::vector<KeyInfo> keys;
  const Node* found = node(key);
  if (found)
    for (const Member& m : found->members) {
      keys.push_back(each);
      keys.back().name = m.name;  // of a document that outlives this
    }
  return table(key, std::move(keys));
}

std::optional<std::array<double, 2>> TableReader::read_pair(
    std::string_view key, const Node& node) {
  const auto first = read(key, node.items[0], info(key));
  const auto second = read(key, node.items[1], info(key));
  if (!first || !second) return std::nullopt;
  return std::array{first->value, second->value};
}

std::optional<std::array<double, 2>> TableReader::value_pair(
    std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  if (is_pair(*found)) return read_pair(key, *found);
  wrong(key, "is not a list of two", "as in " + example_of(info(key)));
  return std::nullopt;
}

std::optional<mesh::Point> TableReader::point(std::string_view key) {
  const auto pair = value_pair(key);
  return pair ? std::optional(mesh::Point((*pair)[0], (*pair)[1]))
              : std::nullopt;
}

std::optional<std::vector<mesh::Point>> TableReader::points(
    std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  const auto refuse = [&](std::string is) {
    wrong(key, std::move(is), "as in " + example_of(info(key)));
    return std::nullopt;
  };
  if (found->kind != Node::Kind::list) return refuse("is not a list of points");
  const std::size_t count = found->items.size();
  if (count == 0 || count > kMostPlaces)
    return refuse(
        fmt::format("is a list of {}, not of 1 to {}", count, kMostPlaces));
  std::vector<mesh::Point> result;
  for (std::size_t k = 0; k < count; ++k) {
    if (!is_pair(found->items[k]))
      return refuse(fmt::format("its item {} is not a list of two", k + 1));
    const auto pair = read_pair(key, found->items[k]);
    if (!pair) return std::nullopt;
    result.emplace_back((*pair)[0], (*pair)[1]);
  }
  return result;
}

std::optional<std::vector<std::string>> TableReader::texts(
    std::string_view key) {
  const Node* found = node(key);
  if (!found) return std::nullopt;
  const bool may_be_empty = info(key).form == Form::names;
  if (found->kind != Node::Kind::list ||
      (found->items.empty() && !may_be_empty) ||
      found->items.size() > kMostTexts) {
    wrong(key, "is not a list of texts", "as in " + example_of(info(key)));
    return std::nullopt;
  }
  std::vector<std::string> result;
  for (const Node& item : found->items) {
    const auto text = plain_text(key, item);
    if (!text) return std::nullopt;
    result.push_back(*text);
  }
  return result;
}

}  // namespace thinspot::io
