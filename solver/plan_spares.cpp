#include "solver/plan_tank.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Point;
using mesh::Role;

void add_spare(Case& c, const Spare& spare, Role role, const std::string& name,
               const Point& at) {
  mesh::Solid solid = spare.solid;
  solid.role = role;
  solid.name = name;
  solid.key = (role == Role::shield ? "shield." : "thief.") + name;
  solid.side.reset();
  solid.at = at;
  if (role == Role::thief)
    c.thieves.push_back({name, c.section.solids.size(), {}, {}});
  c.section.solids.push_back(std::move(solid));
}

}  // namespace

PlanStructure with_spare(const PlanStructure& on, const Spare& spare,
                         Role role) {
  PlanStructure s = on;
  const mesh::Section drawn = mesh::build_as_drawn(on.content.section);
  const Box part = box_of_parts(drawn);
  const Point size =
      mesh::bounding_box(
          mesh::outline_at_origin(spare.solid, on.content.section.cut))
          .size();
  const Box tank = mesh::bounding_box(drawn.liquid_bounds);
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

}  // namespace thinspot::solver
