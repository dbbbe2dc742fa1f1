#include "solver/plan_structures.hpp"

#include "mesh/errors.hpp"
#include "solver/plan_tank.hpp"

#include <Eigen/Geometry>

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Point;
using mesh::Role;
using mesh::Side;

Side turned(Side side, int quarters) {
  const Side around[] = {Side::left, Side::above, Side::right, Side::below};
  const auto at = std::find(std::begin(around), std::end(around), side);
  return around[(at - std::begin(around) + quarters) % 4];
}

/// As near to where it is as the tank has room.
void put_into_tank(const Case& c, mesh::Solid& solid) {
  constexpr double clear = 1e-3;
  const mesh::Outline outline = mesh::moved(
      mesh::outline_at_origin(solid, c.section.cut), solid.turn, solid.at);
  const Box box = mesh::bounding_box(outline);
  const mesh::Tank& tank = c.section.tank;
  const Point room(tank.width,
                   c.section.cut == mesh::Cut::plan && tank.height == 0
                       ? tank.width
                       : tank.height);
  for (int k : {0, 1}) {
    const double over = box.high(k) + clear - room(k),
                 under = clear - box.low(k);
    if (over > 0)
      solid.at(k) -= over;
    else if (under > 0)
      solid.at(k) += under;
  }
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
    const Point centre = box_of_parts(mesh::build_as_drawn(c.section)).centre();
    solid.at = centre + rotation * (solid.at - centre);
  }
  // Half a turn of what is alike from both ends is none.
  if (quarters % 2 == 1) solid.turn += std::numbers::pi / 2;
  if (!solid.side) put_into_tank(c, solid);
  anode.solid = more.section.solids.size();
  more.section.solids.push_back(std::move(solid));
  more.anodes.push_back(std::move(anode));
  return more;
}

bool stands(const Case& c) {
  try {
    mesh::build_as_drawn(c.section);
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
