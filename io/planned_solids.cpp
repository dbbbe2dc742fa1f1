#include "io/addresses.hpp"
#include "io/planned_pieces.hpp"
#include "io/toml_value.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

using mesh::Role;
using mesh::Solid;
using solver::Anode;
using solver::Case;

std::string list_of(const std::string& address) {
  return address.substr(0, address.find('.'));
}

bool same_law(const solver::Polarization& a, const solver::Polarization& b) {
  return a.law == b.law && a.resistance == b.resistance && a.at == b.at &&
         a.offset == b.offset &&
         a.exchange_current_density == b.exchange_current_density &&
         a.tafel_slope == b.tafel_slope &&
         a.reverse_tafel_slope == b.reverse_tafel_slope &&
         a.mass_transfer == b.mass_transfer;
}

/// In all but name and place.
bool alike(const Anode& a, const Anode& b) {
  return a.metal == b.metal && a.soluble == b.soluble &&
         a.open_circuit_voltage == b.open_circuit_voltage &&
         same_law(a.polarization, b.polarization) &&
         a.bag_resistance == b.bag_resistance && a.limit == b.limit &&
         a.rectifier == b.rectifier;
}

/// Key of the drawn solid that a new one's table is copied from; "": none.
std::string pattern_for(const Case& drawn, const Case& planned,
                        const Solid& added) {
  if (added.role == Role::anode) {
    const auto own =
        std::find_if(planned.anodes.begin(), planned.anodes.end(),
                     [&](const Anode& a) { return a.name == added.name; });
    if (own != planned.anodes.end())
      for (const Anode& a : drawn.anodes)
        if (alike(a, *own)) return drawn.section.solids[a.solid].key;
    throw NoResultError(fmt::format(
        "{}: the plan cannot be written as a case file: no drawn anode is like "
        "it",
        added.key));
  }
  for (const Solid& s : drawn.section.solids)
    if (s.role == added.role && s.shape == added.shape) {
      const auto thief = std::find_if(
          drawn.thieves.begin(), drawn.thieves.end(),
          [&](const solver::Thief& t) { return t.name == s.name; });
      const bool plain =
          thief == drawn.thieves.end() ||
          (thief->resistance == solver::Quantity{} && !thief->polarization);
      if (plain) return s.key;
    }
  return "";
}

/// @param original  the document before anything in it was changed
void add_solid(Node& root, Node& original, const Case& drawn,
               const Case& planned, const Solid& added) {
  const std::string pattern = pattern_for(drawn, planned, added);
  Node table = table_node();
  put_key(table, "name", text_node(added.name));
  Solid from;
  if (!pattern.empty()) {
    from = *mesh::find_solid(drawn.section, pattern);
    for (const Member& m : table_at(original, pattern)->members)
      if (m.name != "name") put_key(table, m.name, m.value);
  } else {
    from.at = added.at + mesh::Point(1, 1);
    put_key(table, "shape", text_node(added.shape));
    from.shape = added.shape;
  }
  put_solid(table, from, added, false);
  const std::string list = list_of(added.key);
  if (!root.find(list)) {
    Node none;
    none.kind = Node::Kind::list;
    put_key(root, list, none);
  }
  table.line = 0;
  root.find(list)->items.push_back(std::move(table));
}

/// By its centre, in place of beside the part.
void settle(Node& table, const Solid& clip) {
  if (!table.find("side")) return;
  drop_key(table, "side");
  drop_key(table, "gap");
  put_point(table, "at", clip.at, clip.at);
}

void put_masks(Node& root, const Case& drawn, const Case& planned) {
  for (const mesh::Mask& from : drawn.section.masks) {
    const auto to =
        std::find_if(planned.section.masks.begin(), planned.section.masks.end(),
                     [&](const mesh::Mask& m) { return m.key == from.key; });
    Node* table = table_at(root, from.key);
    if (to == planned.section.masks.end() || !table || !from.between ||
        !to->between)
      continue;
    put_point(*table, "from", (*from.between)[0], (*to->between)[0]);
    put_point(*table, "to", (*from.between)[1], (*to->between)[1]);
  }
}

void put_probes(Node& root, const Case& drawn, const Case& planned) {
  const std::size_t count =
      std::min(drawn.probes.size(), planned.probes.size());
  for (std::size_t k = 0; k < count; ++k)
    if (Node* table = table_at(root, "probe." + drawn.probes[k].name))
      put_point(*table, "at", drawn.probes[k].at, planned.probes[k].at);
}

/// Those that went, once all that stays is found by its old number.
void take_out_gone(Node& root, const Case& drawn, const Case& planned) {
  std::vector<std::string> gone;
  for (const Solid& s : drawn.section.solids)
    if (!mesh::find_solid(planned.section, s.key)) gone.push_back(s.key);
  for (const mesh::Mask& m : drawn.section.masks)
    if (std::none_of(planned.section.masks.begin(), planned.section.masks.end(),
                     [&](const mesh::Mask& p) { return p.key == m.key; }))
      gone.push_back(m.key);
  for (const std::string& address : gone) take_out_table(root, address);
}

}  // namespace

Node* table_at(Node& root, const std::string& address) {
  const auto dot = address.find('.');
  Node* const found = root.find(address.substr(0, dot));
  if (!found || dot == std::string::npos) return found;
  for (std::size_t k = 0; k < found->items.size(); ++k)
    if (element_name(found->items[k], k) == address.substr(dot + 1))
      return &found->items[k];
  return nullptr;
}

void take_out_table(Node& root, const std::string& address) {
  Node* const list = root.find(list_of(address));
  Node* const table = table_at(root, address);
  if (!list || !table) return;
  const auto at = table - list->items.data();
  for (std::size_t k = static_cast<std::size_t>(at) + 1; k < list->items.size();
       ++k)
    if (!list->items[k].find("name"))
      put_key(list->items[k], "name", text_node(std::to_string(k + 1)));
  list->items.erase(list->items.begin() + at);
}

void put_solids(Node& root, const Case& drawn, const Case& planned) {
  Node original = root;
  mesh::Point part_moved = mesh::Point::Zero();
  bool reshaped = false;
  for (const Solid& from : drawn.section.solids) {
    const Solid* to = mesh::find_solid(planned.section, from.key);
    Node* table = table_at(root, from.key);
    if (!to || !table) continue;
    if (from.role == Role::part) {
      part_moved = to->at - from.at;
      reshaped = from.sizes != to->sizes || from.turn != to->turn;
    }
    const bool bound = from.role == Role::clip &&
                       (to->at - from.at - part_moved).norm() < 1e-12;
    put_solid(*table, from, *to, bound);
    // Beside a part of another size a clip would come to stand elsewhere.
    if (from.role == Role::clip && reshaped && !to->side) settle(*table, *to);
  }
  for (const Solid& added : planned.section.solids)
    if (!mesh::find_solid(drawn.section, added.key))
      add_solid(root, original, drawn, planned, added);
  put_masks(root, drawn, planned);
  put_probes(root, drawn, planned);
  take_out_gone(root, drawn, planned);
}

}  // namespace thinspot::io
