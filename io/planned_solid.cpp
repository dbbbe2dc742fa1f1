#include "io/case_keys.hpp"
#include "io/planned_pieces.hpp"
#include "io/quantity_text.hpp"
#include "io/toml_value.hpp"

#include <algorithm>

namespace thinspot::io {

namespace {

using mesh::Solid;

const char* word_of(mesh::Side side) {
  switch (side) {
    case mesh::Side::left: return "left";
    case mesh::Side::right: return "right";
    case mesh::Side::above: return "above";
    case mesh::Side::below: return "below";
  }
  return "";
}

bool is_flag(const std::string& shape, std::string_view key) {
  const mesh::ShapeKind* kind = mesh::find_shape(shape);
  return kind && std::find(kind->flags.begin(), kind->flags.end(), key) !=
                     kind->flags.end();
}

/// What the keys of the old shape would be wrong for.
void drop_shape(Node& table, const Solid& from) {
  for (const auto& [key, size] : from.sizes) drop_key(table, key);
  if (from.shape == kOutlineShape)
    for (const KeyInfo& key : outline_keys()) drop_key(table, key.name);
}

void put_sizes(Node& table, const Solid& from, const Solid& to) {
  const bool reshaped = from.shape != to.shape;
  if (reshaped) {
    drop_shape(table, from);
    put_key(table, "shape", text_node(to.shape));
  }
  for (const auto& [key, size] : to.sizes) {
    const auto old = from.sizes.find(key);
    const bool same =
        !reshaped && old != from.sizes.end() && old->second == size;
    // What is assumed of a part's edges may follow from its other sizes.
    if (same && (from.sizes == to.sizes || table.find(key))) continue;
    put_key(table, key,
            is_flag(to.shape, key) ? flag_node(size != 0)
                                   : text_node(length_text(size)));
  }
  for (const auto& [key, size] : from.sizes)
    if (!to.sizes.contains(key)) drop_key(table, key);
}

void put_place(Node& table, const Solid& from, const Solid& to, bool bound) {
  if (to.side) {
    const bool beside = table.find("side");
    if (!beside || from.side != to.side)
      put_key(table, "side", text_node(word_of(*to.side)));
    if (!beside || from.gap != to.gap)
      put_key(table, "gap", text_node(length_text(to.gap)));
    drop_key(table, "at");
    return;
  }
  if (!from.side && from.at == to.at) return;
  if (bound && table.find("side")) return;
  put_point(table, "at", from.at, to.at);
  drop_key(table, "side");
  drop_key(table, "gap");
}

}  // namespace

void put_point(Node& table, std::string_view key, const mesh::Point& from,
               const mesh::Point& to) {
  Node* const old = table.find(key);
  const bool whole =
      !old || old->kind != Node::Kind::list || old->items.size() != 2;
  if (!whole && from == to) return;
  Node point;
  point.kind = Node::Kind::list;
  for (int k : {0, 1})
    point.items.push_back(whole || from(k) != to(k)
                              ? text_node(length_text(to(k)))
                              : old->items[static_cast<std::size_t>(k)]);
  put_key(table, key, std::move(point));
}

void put_solid(Node& table, const Solid& from, const Solid& to, bool bound) {
  put_sizes(table, from, to);
  if (from.turn != to.turn)
    put_key(table, "turn", text_node(angle_text(to.turn)));
  put_place(table, from, to, bound);
  if (table.find("axis"))
    put_point(table, "axis", from.at + from.axis, to.at + to.axis);
}

}  // namespace thinspot::io
