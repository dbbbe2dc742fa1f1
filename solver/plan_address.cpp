#include "solver/plan_address.hpp"

#include "mesh/errors.hpp"
#include "solver/plan_variables.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

bool has_field(const mesh::Solid& solid, const std::string& field) {
  if (field == "gap") return solid.side.has_value();
  if (field == "at.x" || field == "at.y") return !solid.side;
  return field == "turn" || solid.sizes.contains(field);
}

double* number_of(mesh::Solid& solid, const std::string& field) {
  if (field == "gap") return &solid.gap;
  if (field == "turn") return &solid.turn;
  const auto size = solid.sizes.find(field);
  return size == solid.sizes.end() ? nullptr : &size->second;
}

/// Wires come from above: what the part sinks by, or the liquid rises, more of
/// them is wetted [m].
void wet(Case& c, double more) {
  if (c.section.cut == mesh::Cut::plan) return;
  constexpr double least = 1e-3;  // that holds the part
  for (Wire& wire : c.wires)
    wire.wetted = std::max(std::min(least, wire.wetted), wire.wetted + more);
}

}  // namespace

std::optional<PlacedAddress> find_placed(const Case& c,
                                         const std::string& key) {
  if (key == "tank.level" && c.section.cut != mesh::Cut::plan)
    return PlacedAddress{0, "", true};
  for (std::size_t s = 0; s < c.section.solids.size(); ++s) {
    const mesh::Solid& solid = c.section.solids[s];
    if (!key.starts_with(solid.key + ".")) continue;
    const std::string field = key.substr(solid.key.size() + 1);
    if (has_field(solid, field)) return PlacedAddress{s, field, false};
  }
  return std::nullopt;
}

void move_solid(Case& c, std::size_t solid, const mesh::Point& by) {
  mesh::Solid& moved = c.section.solids[solid];
  moved.at += by;
  if (moved.role != mesh::Role::part) return;
  for (mesh::Solid& other : c.section.solids)
    if (other.role == mesh::Role::clip && other.copy == moved.copy)
      other.at += by;
  wet(c, -by.y());
  for (Probe& probe : c.probes) probe.at += by;
  for (mesh::Mask& mask : c.section.masks)
    if (mask.on == "part" && mask.between)
      for (mesh::Point& p : *mask.between) p += by;
}

std::optional<double> placed_value(const Case& c, const std::string& key) {
  const auto a = find_placed(c, key);
  if (!a) return std::nullopt;
  if (a->level) return c.section.tank.level;
  mesh::Solid solid = c.section.solids[a->solid];
  if (a->field == "at.x") return solid.at.x();
  if (a->field == "at.y") return solid.at.y();
  return *number_of(solid, a->field);
}

void place_value(Case& c, const std::string& key, double value) {
  const auto a = find_placed(c, key);
  if (!a)
    throw InputError(key, "is nothing that a plan can move",
                     "a place, gap, turn or size of what stands in the tank");
  if (a->level) {
    wet(c, value - c.section.tank.level);
    c.section.tank.level = value;
    return;
  }
  mesh::Solid& solid = c.section.solids[a->solid];
  if (a->field == "at.x")
    move_solid(c, a->solid, {value - solid.at.x(), 0});
  else if (a->field == "at.y")
    move_solid(c, a->solid, {0, value - solid.at.y()});
  else
    *number_of(solid, a->field) = value;
}

}  // namespace thinspot::solver
