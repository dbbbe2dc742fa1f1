#include "solver/plan_variables.hpp"

#include "mesh/errors.hpp"
#include "solver/model.hpp"
#include "solver/plan_address.hpp"
#include "solver/plan_tank.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Point;
using mesh::Role;

/// What an anode keeps from the part, so that they do not touch when the part
/// swings and solution gets between; and any solid from a wall [m]. Common
/// practice, no source.
constexpr double kLeastGap = 20e-3, kToWall = 2e-3;
/// Solution that should stand above and below a part that hangs [m]. Common
/// practice, no source.
constexpr double kAbove = 10e-3, kBelow = 15e-3;
/// How far a shield or thief may go from where it is drawn [m].
constexpr double kAround = 8e-3;
/// A range less wide than this is not worth the search [m].
constexpr double kNarrow = 4e-3;

bool is_length(const std::string& field) { return field != "turn"; }

PlanVariable variable(const Case& c, const std::string& key, double low,
                      double high) {
  const PlacedAddress a = *find_placed(c, key);
  PlanVariable v;
  v.key = key;
  v.low = low;
  v.high = high;
  v.drawn = std::clamp(*placed_value(c, key), low, high);
  const bool length = a.level || is_length(a.field);
  const double range = high - low;
  v.step = length ? (range < 20e-3 ? 0.5e-3 : 1e-3) : std::numbers::pi / 180;
  const std::string name = a.level ? "liquid" : c.section.solids[a.solid].name;
  const bool plan = c.section.cut == mesh::Cut::plan;
  if (a.level) {
    v.words = "level of the liquid";
    v.further = "liquid level higher";
    v.nearer = "liquid level lower";
  } else if (a.field == "gap") {
    v.words = fmt::format("gap between the {} and the part", name);
    v.further = fmt::format("{} farther from the part", name);
    v.nearer = fmt::format("{} nearer to the part", name);
  } else if (a.field == "at.x") {
    v.words = fmt::format("place of the {} from left to right", name);
    v.further = fmt::format("{} farther to the right", name);
    v.nearer = fmt::format("{} farther to the left", name);
  } else if (a.field == "at.y") {
    v.words = plan ? fmt::format("place of the {} from front to back", name)
                   : fmt::format("height of the {}", name);
    v.further = name + (plan ? " farther to the back" : " higher");
    v.nearer = name + (plan ? " farther to the front" : " lower");
  } else if (a.field == "turn") {
    v.words = fmt::format("tilt of the {}", name);
    v.further = fmt::format("{} turned counter-clockwise", name);
    v.nearer = fmt::format("{} turned clockwise", name);
  } else {
    v.words = fmt::format("{} of the {}", a.field, name);
    v.further = fmt::format("{} of the {} larger", a.field, name);
    v.nearer = fmt::format("{} of the {} smaller", a.field, name);
  }
  v.set = [key](Case& into, double value) { place_value(into, key, value); };
  return v;
}

/// What stands where, as drawn.
struct Drawn {
  mesh::Section section;
  Box part;  ///< of all copies
};

void add(std::vector<PlanVariable>& all, const Case& c, const std::string& key,
         double low, double high) {
  const auto now = placed_value(c, key);
  if (!now) return;
  // What is drawn is within bounds, even where nobody would bound it so.
  low = std::min(low, *now);
  high = std::max(high, *now);
  if (high - low >= kNarrow) all.push_back(variable(c, key, low, high));
}

/// Distance from the part, to that side of it where the solid stands.
void add_distance(std::vector<PlanVariable>& all, const Case& c, const Drawn& d,
                  std::size_t s) {
  const mesh::Solid& solid = c.section.solids[s];
  const Box box = mesh::bounding_box(d.section.solids[s].outline);
  const Box tank = mesh::bounding_box(d.section.liquid_bounds);
  const Point half = box.size() / 2;
  struct Way {
    bool here;
    const char* field;
    double low, high;  ///< of the centre
    double gap;        ///< to the wall
  };
  const Way ways[] = {
      {box.high.x() <= d.part.low.x(), "at.x",
       tank.low.x() + half.x() + kToWall, d.part.low.x() - kLeastGap - half.x(),
       d.part.low.x() - tank.low.x() - box.size().x() - kToWall},
      {box.low.x() >= d.part.high.x(), "at.x",
       d.part.high.x() + kLeastGap + half.x(),
       tank.high.x() - half.x() - kToWall,
       tank.high.x() - d.part.high.x() - box.size().x() - kToWall},
      {box.high.y() <= d.part.low.y(), "at.y",
       tank.low.y() + half.y() + kToWall, d.part.low.y() - kLeastGap - half.y(),
       d.part.low.y() - tank.low.y() - box.size().y() - kToWall},
      {box.low.y() >= d.part.high.y(), "at.y",
       d.part.high.y() + kLeastGap + half.y(),
       tank.high.y() - half.y() - kToWall,
       tank.high.y() - d.part.high.y() - box.size().y() - kToWall},
  };
  for (const Way& way : ways) {
    if (!way.here) continue;
    if (solid.side)
      add(all, c, solid.key + ".gap", kLeastGap, way.gap);
    else
      add(all, c, solid.key + "." + way.field, way.low, way.high);
    return;
  }
}

void add_place(std::vector<PlanVariable>& all, const Case& c,
               const std::string& key, const Box& box, const Box& tank,
               double around) {
  const Point half = box.size() / 2, at = box.centre();
  for (int k : {0, 1})
    add(all, c, key + (k == 0 ? ".at.x" : ".at.y"),
        std::max(tank.low(k) + half(k) + kToWall, at(k) - around),
        std::min(tank.high(k) - half(k) - kToWall, at(k) + around));
}

bool encloses(const mesh::PlacedSolid& anode, const Box& part) {
  const Box box = mesh::bounding_box(anode.outline);
  return (box.low.array() < part.low.array()).all() &&
         (box.high.array() > part.high.array()).all();
}

std::vector<PlanVariable> usual(const Case& c) {
  std::vector<PlanVariable> all;
  const mesh::Section section = mesh::build_as_drawn(c.section);
  const Drawn d{section, box_of_parts(section)};
  const Box tank = mesh::bounding_box(d.section.liquid_bounds);
  if (c.section.cut == mesh::Cut::axisymmetric) return all;
  bool enclosed = false;
  for (std::size_t s = 0; s < d.section.solids.size(); ++s) {
    const mesh::PlacedSolid& solid = d.section.solids[s];
    const Box box = mesh::bounding_box(solid.outline);
    if (solid.spec.role == Role::anode) {
      enclosed = enclosed || encloses(solid, d.part);
      add_distance(all, c, d, s);
    } else if (solid.spec.role == Role::shield ||
               solid.spec.role == Role::thief) {
      if (solid.spec.side)
        add_distance(all, c, d, s);
      else
        add_place(all, c, solid.spec.key, box, tank, kAround);
    }
  }
  if (c.rack || part_solids(c).size() != 1) return all;
  const Point half = d.part.size() / 2;
  const bool dips = c.section.cut == mesh::Cut::side &&
                    d.part.high.y() < tank.high.y() - kToWall &&
                    d.part.low.y() > tank.low.y() + kToWall;
  if (dips) {
    // What stands beside the part goes up and down with it.
    double lowest = half.y() + kBelow;
    for (const mesh::PlacedSolid& s : d.section.solids)
      if (s.spec.side && s.spec.role == Role::anode)
        lowest = std::max(
            lowest, mesh::bounding_box(s.outline).size().y() / 2 + kToWall);
    add(all, c, "part.at.y", tank.low.y() + lowest,
        tank.high.y() - half.y() - kAbove);
  }
  if (c.section.cut == mesh::Cut::plan && enclosed)
    add_place(all, c, "part", d.part, tank, 1);
  return all;
}

bool of_supply(const std::string& key) {
  return key.starts_with("supply.") || key.starts_with("rectifier.");
}

/// What a supply at an address is set to.
std::optional<double> setting(const Case& c, const std::string& key) {
  const auto in = [&](const Supply& s,
                      const std::string& prefix) -> std::optional<double> {
    if (key == prefix + "current" && s.current) return s.current->value;
    if (key == prefix + "current_density" && s.current_density)
      return s.current_density->value;
    if (key == prefix + "voltage" && s.voltage) return s.voltage->value;
    return std::nullopt;
  };
  if (const auto value = in(c.supply, "supply.")) return value;
  for (const Rectifier& r : c.rectifiers)
    if (const auto value = in(r.supply, "rectifier." + r.name + "."))
      return value;
  return std::nullopt;
}

}  // namespace

std::vector<PlanVariable> plan_variables(const Case& c) {
  if (c.plan.vary.empty()) return usual(c);
  std::vector<PlanVariable> all;
  for (const Vary& vary : c.plan.vary) {
    if (of_supply(vary.key)) continue;
    if (!placed_value(c, vary.key))
      throw InputError("plan.vary",
                       vary.key + " is nothing that a plan can move",
                       "a place, gap, turn or size of what stands in the tank, "
                       "its level, or a setting of a supply");
    all.push_back(variable(c, vary.key, vary.low, vary.high));
  }
  return all;
}

DriveRange drive_range(const Case& c) {
  DriveRange range;
  bool bounded = false;
  if (!c.plan.vary.empty()) range = {1, 1};
  for (const Vary& vary : c.plan.vary) {
    if (!of_supply(vary.key)) continue;
    const auto drawn = setting(c, vary.key);
    if (!drawn || !(*drawn > 0))
      throw InputError("plan.vary",
                       vary.key + " is not what the supply is set by",
                       "the key that the case sets, as in supply.current");
    // All go up and down together, so the narrowest holds.
    const DriveRange own{vary.low / *drawn, vary.high / *drawn};
    range = bounded ? DriveRange{std::max(range.low, own.low),
                                 std::min(range.high, own.high)}
                    : own;
    bounded = true;
  }
  if (range.low > range.high)
    throw InputError("plan.vary",
                     "leaves no factor for all supplies together: they go up "
                     "and down by the same",
                     "ranges that have a factor of what is drawn in common");
  return range;
}

std::string in_words(const PlanVariable& v) {
  const bool turn = v.key.ends_with(".turn");
  const double unit = turn ? std::numbers::pi / 180 : 1e-3;
  return fmt::format("{}, {:.4g} to {:.4g} {}", v.words, v.low / unit,
                     v.high / unit, turn ? "deg" : "mm");
}

}  // namespace thinspot::solver
