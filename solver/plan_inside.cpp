#include "solver/plan_tank.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <optional>

namespace thinspot::solver {

namespace {

using mesh::Point;
using mesh::Role;

/// Of the width of a bore, an anode inside it: room for the solution to move,
/// and an area that need not dissolve too fast. Common practice, no source.
constexpr double kOfBore = 0.4;

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

}  // namespace

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

}  // namespace thinspot::solver
