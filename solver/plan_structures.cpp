#include "solver/plan_structures.hpp"

#include "mesh/errors.hpp"
#include "solver/model.hpp"
#include "solver/step_case.hpp"

#include <Eigen/Geometry>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Point;
using mesh::Role;
using mesh::Side;

/// Of the width of a bore, an anode inside it: room for the solution to move,
/// and an area that need not dissolve too fast. Common practice, no source.
constexpr double kOfBore = 0.4;

/// Other names than those that are there: "sheet 2".
std::string free_name(const Case& c, const std::string& like,
                      const std::string& table) {
  for (int n = 2;; ++n) {
    const std::string name = fmt::format("{} {}", like, n);
    const std::string key = table + "." + name;
    if (std::none_of(c.section.solids.begin(), c.section.solids.end(),
                     [&](const auto& s) { return s.key == key; }))
      return name;
  }
}

Box box_of_parts(const Case& c) {
  mesh::SectionSpec spec = c.section;
  spec.motion = {};
  const mesh::Section section = mesh::build_section(spec);
  std::optional<Box> all;
  for (const mesh::PlacedSolid& s : section.solids) {
    if (s.spec.role != Role::part) continue;
    const Box box = mesh::bounding_box(s.outline);
    if (!all) all = box;
    all->low = all->low.cwiseMin(box.low);
    all->high = all->high.cwiseMax(box.high);
  }
  return *all;
}

Side turned(Side side, int quarters) {
  const Side around[] = {Side::left, Side::above, Side::right, Side::below};
  const auto at = std::find(std::begin(around), std::end(around), side);
  return around[(at - std::begin(around) + quarters) % 4];
}

/// One more like the first anode, so many quarters clockwise around the parts.
Case with_anode(const Case& c, int quarters) {
  Case more = c;
  Anode anode = c.anodes.front();
  mesh::Solid solid = c.section.solids[anode.solid];
  const double angle = -quarters * std::numbers::pi / 2;
  const Eigen::Rotation2Dd rotation(angle);
  anode.name = free_name(c, anode.name, "anode");
  solid.name = anode.name;
  solid.key = "anode." + anode.name;
  if (solid.side) {
    solid.side = turned(*solid.side, quarters);
  } else {
    const Point centre = box_of_parts(c).centre();
    solid.at = centre + rotation * (solid.at - centre);
  }
  if (quarters % 2 == 1) solid.turn += std::numbers::pi / 2;
  // Half a turn of what is alike from both ends is none.
  anode.solid = more.section.solids.size();
  more.section.solids.push_back(std::move(solid));
  more.anodes.push_back(std::move(anode));
  return more;
}

Case without_anodes(const Case& c, const std::vector<std::string>& names) {
  Case one = c;
  Step step = c.steps.front();
  step.off.clear();
  step.lifted = names;
  one.steps = {step};
  Case fewer = case_of_step(one, 0);
  fewer.section.motion = c.section.motion;
  fewer.supply = c.supply;
  fewer.rectifiers = c.rectifiers;
  fewer.solution = c.solution;
  fewer.clips = c.clips;
  fewer.steps = c.steps;
  return fewer;
}

bool stands(const Case& c) {
  try {
    mesh::SectionSpec spec = c.section;
    spec.motion = {};
    mesh::build_section(spec);
    return true;
  } catch (const InputError&) {
    return false;
  }
}

/// Anodes are alike in what steps do with them, and on one supply.
bool anodes_are_plain(const Case& c) {
  return c.rectifiers.size() <= 1 && !c.rack &&
         c.section.cut != mesh::Cut::axisymmetric &&
         std::all_of(c.steps.begin(), c.steps.end(), [](const Step& s) {
           return s.off.empty() && s.lifted.empty();
         });
}

/// Room inside of a part that an anode may hang in.
struct Bore {
  double width = 0;
  double length = 0;             ///< along its axis
  Point middle = Point::Zero();  ///< of the room
  bool one_end = false;          ///< a recess: open at one end alone
};

std::optional<Bore> bore_of(const mesh::Solid& part) {
  const auto size = [&](const char* key) {
    const auto found = part.sizes.find(key);
    return found == part.sizes.end() ? 0.0 : found->second;
  };
  const double wall = size("wall");
  if (part.shape == "tube" && size("open") != 0)
    return Bore{size("diameter") - 2 * wall, size("length"), part.at, false};
  if (part.shape != "channel") return std::nullopt;
  const Eigen::Rotation2Dd turn(part.turn);
  return Bore{size("width") - 2 * wall, size("depth") - wall,
              part.at + turn * Point(0, wall / 2), true};
}

bool is_inside(const mesh::Solid& solid, const Bore& bore) {
  const auto size = solid.sizes.find("diameter");
  return size != solid.sizes.end() && size->second < bore.width &&
         (solid.at - bore.middle).norm() < bore.width / 2;
}

/// A rod in the bore of a tube or the recess of a channel, in place of all
/// anodes.
std::optional<Case> with_anode_inside(const Case& c) {
  const auto part =
      std::find_if(c.section.solids.begin(), c.section.solids.end(),
                   [](const auto& s) { return s.role == Role::part; });
  if (c.rack || c.rectifiers.size() > 1) return std::nullopt;
  const std::optional<Bore> bore = bore_of(*part);
  if (!bore) return std::nullopt;
  std::vector<std::string> others;
  for (std::size_t k = 0; k < c.anodes.size(); ++k) {
    if (is_inside(c.section.solids[c.anodes[k].solid], *bore))
      return std::nullopt;
    if (k > 0) others.push_back(c.anodes[k].name);
  }
  Case inside = without_anodes(c, others);
  mesh::Solid& rod = inside.section.solids[inside.anodes.front().solid];
  rod.shape = "rod";
  rod.sizes = {{"diameter", std::round(kOfBore * bore->width * 1e3) / 1e3}};
  rod.drawn = {};
  rod.side.reset();
  rod.gap = 0;
  rod.turn = 0;
  rod.at = bore->middle;
  if (c.section.cut == mesh::Cut::axisymmetric) {
    rod.sizes["length"] = bore->length;
    // As far off the floor of a recess as off its wall.
    if (bore->one_end) rod.at.y() += (bore->width - rod.sizes["diameter"]) / 2;
  }
  return inside;
}

mesh::Solid& add_spare(Case& c, const Spare& spare, Role role,
                       const std::string& name, const Point& at) {
  mesh::Solid solid = spare.solid;
  solid.role = role;
  solid.name = name;
  solid.key = (role == Role::shield ? "shield." : "thief.") + name;
  solid.side.reset();
  solid.at = at;
  if (role == Role::thief)
    c.thieves.push_back({name, c.section.solids.size(), {}, {}});
  c.section.solids.push_back(std::move(solid));
  return c.section.solids.back();
}

/// One or a pair that mirror each other above and below the part's middle.
PlanStructure with_spare(const PlanStructure& on, const Spare& spare,
                         Role role) {
  PlanStructure s = on;
  const Box part = box_of_parts(on.content);
  const Point size =
      mesh::bounding_box(
          mesh::outline_at_origin(spare.solid, on.content.section.cut))
          .size();
  const Box tank =
      mesh::bounding_box(mesh::build_section(on.content.section).liquid_bounds);
  const double middle = part.centre().y();
  const std::string word = role == Role::shield ? "shield" : "thief";
  const double clear = 2e-3 + size.y() / 2;
  // A thief beyond the rims; a shield before them, towards the anode.
  const double x_low = std::max(tank.low.x() + size.x(), part.low.x() - 30e-3),
               x_high = role == Role::shield
                            ? part.low.x() - 3e-3 - size.x() / 2
                            : part.high.x();
  const double y_high = std::min({tank.high.y(), 2 * middle - tank.low.y(),
                                  part.high.y() + 30e-3}) -
                        clear;
  const double y_low = role == Role::shield
                           ? middle + clear
                           : part.high.y() + 3e-3 + size.y() / 2;
  const std::string name = free_name(s.content, word, word);
  const std::string key = word + "." + name;
  const Point start(
      role == Role::shield ? (x_low + x_high) / 2 : part.centre().x(),
      role == Role::shield ? std::min(part.high.y(), y_high)
                           : std::min(part.high.y() + 8e-3, y_high));
  add_spare(s.content, spare, role, name, start);
  std::string below;
  if (spare.count > 1) {
    const std::string other = free_name(s.content, word, word);
    below = word + "." + other;
    add_spare(s.content, spare, role, other,
              {start.x(), 2 * middle - start.y()});
  }
  const auto move = [key, below, middle](bool x) {
    return [key, below, middle, x](Case& c, double value) {
      place_value(c, key + (x ? ".at.x" : ".at.y"), value);
      if (!below.empty())
        place_value(c, below + (x ? ".at.x" : ".at.y"),
                    x ? value : 2 * middle - value);
    };
  };
  const auto add = [&](bool x, double low, double high, double at) {
    if (!(high > low)) return;
    s.variables.push_back(
        {key + (x ? ".at.x" : ".at.y"), low, high, std::clamp(at, low, high),
         1e-3, fmt::format("{} of the {}", x ? "place" : "height", word), "",
         "", move(x)});
  };
  add(true, x_low, x_high, start.x());
  add(false, y_low, y_high, start.y());
  (role == Role::shield ? s.shield : s.thief) = true;
  s.drawn = false;
  return s;
}

PlanStructure structure(const Case& c, bool drawn) {
  return {c, plan_variables(c), c.anodes.size(), false, false, false, drawn};
}

/// What an added anode may do where the wishes name the first one's keys alone.
void vary_alike(PlanStructure& s, const Case& drawn) {
  const std::string first = "anode." + drawn.anodes.front().name + ".";
  for (std::size_t k = drawn.anodes.size(); k < s.content.anodes.size(); ++k)
    for (const Vary& vary : drawn.plan.vary) {
      if (!vary.key.starts_with(first)) continue;
      const std::string field = vary.key.substr(first.size());
      const std::string key = "anode." + s.content.anodes[k].name + "." + field;
      if (field.starts_with("at.") || !placed_value(s.content, key)) continue;
      s.variables.push_back(
          {key, vary.low, vary.high, *placed_value(s.content, key), 1e-3,
           field + " of the " + s.content.anodes[k].name, "", "",
           [key](Case& c, double value) { place_value(c, key, value); }});
    }
}

}  // namespace

std::vector<PlanStructure> plan_structures(const Case& c) {
  std::vector<PlanStructure> all{structure(c, true)};
  const auto drawn = static_cast<int>(c.anodes.size());
  const int most = c.plan.most_anodes.value_or(
      c.plan.vary.empty() ? std::max(drawn, 2) : drawn);
  if (anodes_are_plain(c)) {
    const auto add = [&](const Case& changed) {
      if (!stands(changed)) return;
      PlanStructure s = structure(changed, false);
      if (!c.plan.vary.empty()) vary_alike(s, c);
      all.push_back(std::move(s));
    };
    if (drawn == 1 && most >= 2) add(with_anode(c, 2));
    if (drawn <= 2 && most >= 3 && c.section.cut == mesh::Cut::plan) {
      const Case two = drawn == 1 ? with_anode(c, 2) : c;
      add(with_anode(two, 1));
      if (most >= 4) add(with_anode(with_anode(two, 1), 3));
    }
    for (int n = drawn - 1; n >= 1; --n) {
      std::vector<std::string> names;
      for (int k = n; k < drawn; ++k)
        names.push_back(c.anodes[static_cast<std::size_t>(k)].name);
      add(without_anodes(c, names));
    }
    std::erase_if(all, [&](const PlanStructure& s) {
      return static_cast<int>(s.anodes) > most && !s.drawn;
    });
  }
  if (c.plan.vary.empty())
    if (const auto inside = with_anode_inside(c); inside && stands(*inside)) {
      all.push_back(structure(*inside, false));
      all.back().inside = true;
    }
  const std::size_t bare = all.size();
  for (std::size_t k = 0; k < bare; ++k) {
    if (c.plan.shield)
      all.push_back(with_spare(all[k], *c.plan.shield, Role::shield));
    if (c.plan.thief)
      all.push_back(with_spare(all[k], *c.plan.thief, Role::thief));
  }
  return all;
}

}  // namespace thinspot::solver
