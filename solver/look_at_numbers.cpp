#include "mesh/lower_case.hpp"
#include "solver/anode_limit.hpp"
#include "solver/deposit.hpp"
#include "solver/findings.hpp"
#include "solver/preparation.hpp"
#include "solver/substances.hpp"
#include "solver/usual_range.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using mesh::Role;

// Common practice, no source; anode to cathode from memory as well.
constexpr double kLeastAnodes = 1;
constexpr double kMuch = 0.10;      // of the cathode's area
constexpr double kDisagree = 0.10;  // drawn area against real

bool mentions(const std::string& text, const std::string& word) {
  return mesh::lower_case(text).find(word) != std::string::npos;
}

void look_at_currents(const Bench& b, std::vector<Finding>& found) {
  const Case& c = b.content;
  const double mean = b.cell.density;
  const auto& burning = c.target.burning_current_density;
  const auto& limiting = c.solution.limiting_current_density;
  if (burning && mean > *burning)
    found.push_back({Look::above_burning, "", "", mean, *burning});
  else if (limiting && mean > kShareOfLimit * limiting->value)
    found.push_back({Look::near_limiting, "", "", mean, limiting->value});
  const auto usual = usual_range(c);
  if (usual && mean > usual->high && found.empty())
    found.push_back({Look::above_range, "", "", mean, usual->high});
  if (usual && mean < usual->low)
    found.push_back({Look::below_range, "", "", mean, usual->low});
  const auto& limit = c.supply.voltage_limit;
  if (limit && !b.cell.by_voltage && b.cell.voltage > *limit)
    found.push_back({Look::over_voltage_limit, "", "", b.cell.voltage, *limit});
  if (c.supply.adapter && b.cell.voltage >= c.supply.adapter->voltage)
    found.push_back({Look::adapter_too_weak, "", "", b.cell.voltage,
                     c.supply.adapter->voltage});
  for (std::size_t r = 0; r < c.rectifiers.size(); ++r) {
    const auto& own = c.rectifiers[r].supply.voltage_limit;
    const RectifierEstimate& e = b.cell.rectifiers[r];
    if (own && !e.by_voltage && e.voltage > *own)
      found.push_back({Look::over_voltage_limit, "", c.rectifiers[r].name,
                       e.voltage, *own});
    const auto& adapter = c.rectifiers[r].supply.adapter;
    if (adapter && e.voltage >= adapter->voltage)
      found.push_back({Look::adapter_too_weak, "", c.rectifiers[r].name,
                       e.voltage, adapter->voltage});
  }
}

void look_at_time(const Bench& b, std::vector<Finding>& found) {
  const Case& c = b.content;
  if (!c.target.thickness) return;
  const double growth = growth_per_charge(c.solution.metal) *
                        c.solution.efficiency.value * b.cell.density;
  const double needed = *c.target.thickness / growth;
  if (needed > total_duration(c))
    found.push_back({Look::time_too_short, "", "", needed, total_duration(c)});
}

void look_at_areas(const Bench& b, std::vector<Finding>& found) {
  const Case& c = b.content;
  const double ratio = b.areas.anodes / b.areas.cathode();
  if (ratio < kLeastAnodes)
    found.push_back({Look::small_anodes, "", "", ratio, kLeastAnodes});
  const double clips = b.areas.clips / b.areas.cathode();
  const double wires = b.areas.wires / b.areas.cathode();
  if (clips > kMuch) found.push_back({Look::much_clip, "", "", clips, kMuch});
  if (wires > kMuch) found.push_back({Look::much_wire, "", "", wires, kMuch});
  if (!c.depth || b.section.cut == mesh::Cut::axisymmetric) return;
  const auto part = std::find_if(
      b.section.solids.begin(), b.section.solids.end(),
      [](const mesh::PlacedSolid& s) { return s.spec.role == Role::part; });
  if (part == b.section.solids.end()) return;
  std::optional<double> real = c.part_area;
  const mesh::ShapeKind* kind = mesh::find_shape(part->spec.shape);
  if (!real && kind) real = kind->real_area(part->spec.sizes);
  if (!real) return;
  const double drawn = mesh::perimeter(part->outline) * *c.depth;
  if (std::abs(drawn / *real - 1) > kDisagree)
    found.push_back({Look::area_disagrees, part->spec.key, "", drawn, *real});
}

/// What the preparation says of the part's metal under this solution.
void look_at_base_metal(const Bench& b, std::vector<Finding>& found) {
  const auto p = prepare(b.content);
  if (p && p->verdict && *p->verdict != Verdict::holds)
    found.push_back({Look::immersion_deposit, b.content.part_metal, "", 0, 0});
}

/// A class of a standard is of one metal.
void look_at_class(const Bench& b, std::vector<Finding>& found) {
  const Target& t = b.content.target;
  const std::string& plated = b.content.solution.metal.name;
  if (!t.class_metal.empty() && plain_metal(plated) != t.class_metal)
    found.push_back({Look::other_class_metal, "", "", 0, 0});
}

void look_at_anode_metals(const Bench& b, std::vector<Finding>& found) {
  const Case& c = b.content;
  const std::string& plated = c.solution.metal.name;
  bool any_soluble = false;
  for (const Anode& a : c.anodes) {
    const std::string& key = b.section.solids[a.solid].spec.key;
    if (!a.soluble) continue;
    any_soluble = true;
    if (!a.metal.empty() && !mentions(a.metal, mesh::lower_case(plated)) &&
        plated != "brass")
      found.push_back({Look::other_anode_metal, key, "", 0, 0});
  }
  const double mean = b.areas.anodes > 0 ? b.cell.current / b.areas.anodes : 0;
  double most = 0;
  for (const Anode& a : c.anodes)
    if (const auto limit = anode_limit(c, a))
      most = std::max(most, limit->density.value);
  if (any_soluble && most > 0 && mean > most)
    found.push_back({Look::anode_overloaded, "", "", mean, most});
  if (!c.anodes.empty() && !any_soluble)
    found.push_back({Look::metal_from_solution, "", "",
                     mass_per_charge(c.solution.metal) *
                         c.solution.efficiency.value * b.cell.current *
                         total_duration(c),
                     0});
}

/// What sticks out of the liquid is held up there.
bool sticks_out(const Bench& b) {
  return std::any_of(
      b.section.solids.begin(), b.section.solids.end(), [&](const auto& s) {
        return s.spec.role == Role::part &&
               mesh::bounding_box(s.outline).high.y() > b.section.tank.level;
      });
}

}  // namespace

std::vector<Finding> look_at_numbers(const Bench& b) {
  std::vector<Finding> found;
  look_at_currents(b, found);
  look_at_time(b, found);
  look_at_areas(b, found);
  look_at_base_metal(b, found);
  look_at_class(b, found);
  look_at_anode_metals(b, found);
  if (b.section.cut == mesh::Cut::side && b.content.wires.empty() &&
      b.content.clips.empty() && !sticks_out(b))
    found.push_back({Look::nothing_holds, "", "", 0, 0});
  return found;
}

}  // namespace thinspot::solver
