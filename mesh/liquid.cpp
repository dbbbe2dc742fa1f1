#include "mesh/liquid.hpp"

#include "mesh/crossing.hpp"
#include "mesh/cut_by_boolean.hpp"
#include "mesh/errors.hpp"
#include "mesh/turning_disc.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <numbers>
#include <set>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

int owner_of_bound(const std::string& face) {
  if (face == "surface") return kSurface;
  return face == "axis" ? kAxis : kWall;
}

bool cross(const Outline& a, const Outline& b) {
  for (const Loop& loop : a.loops)
    for (const Curve& c : loop)
      for (const Loop& other : b.loops)
        for (const Curve& d : other)
          if (!crossings(c, d).empty()) return true;
  return false;
}

/// True where no solid touches another or the liquid's bounds, and none has
/// holes.
bool all_apart(const Section& section) {
  const Outline& bounds = section.liquid_bounds;
  if (bounds.loops.size() != 1) return false;
  const double least = 1e-6 * extent(section);
  std::vector<Box> boxes;
  for (const PlacedSolid& s : section.solids) {
    if (s.outline.loops.size() != 1 ||
        !contains(bounds, s.outline.loops.front().front().from) ||
        cross(s.outline, bounds) || distance(s.outline, bounds) < least)
      return false;
    boxes.push_back(bounding_box(s.outline));
    for (std::size_t k = 0; k + 1 < boxes.size(); ++k)
      if (distance(boxes[k], boxes.back()) < least) return false;
  }
  return true;
}

/// The outlines as they are, one region.
std::vector<LiquidCurve> uncut(const Section& section) {
  std::vector<LiquidCurve> curves;
  const auto add_loop = [&](const Loop& loop, int solid) {
    const int first = static_cast<int>(curves.size());
    const int count = static_cast<int>(loop.size());
    for (int k = 0; k < count; ++k) {
      curves.push_back(liquid_curve(section, solid, 0, k, 0, 1));
      curves.back().piece.start_vertex = first + k;
      curves.back().piece.end_vertex = first + (k + 1) % count;
    }
  };
  add_loop(section.liquid_bounds.loops.front(), -1);
  for (std::size_t s = 0; s < section.solids.size(); ++s)
    add_loop(section.solids[s].outline.loops.front(), static_cast<int>(s));
  return curves;
}

bool in_liquid(const Section& section, const Point& p) {
  if (!contains(section.liquid_bounds, p)) return false;
  return std::none_of(
      section.solids.begin(), section.solids.end(),
      [&](const PlacedSolid& s) { return contains(s.outline, p); });
}

/// Unit direction in which a piece leaves one of its ends.
Point leaving(const BoundaryPiece& piece, bool at_start) {
  const Point n = outward_normal(piece.curve, at_start ? 0 : 1);
  const Point tangent(-n.y(), n.x());
  return at_start ? tangent : Point(-tangent);
}

/// Angle inside the liquid between two directions that leave a corner.
double liquid_angle(const Section& section, const Point& at, const Point& a,
                    const Point& b, double reach) {
  const double between = std::acos(std::clamp(a.dot(b), -1.0, 1.0));
  Point bisector = a + b;
  if (bisector.norm() < 1e-6) return pi;
  bisector.normalize();
  const bool inside = in_liquid(section, at + 1e-3 * reach * bisector);
  return inside ? between : 2 * pi - between;
}

std::vector<CornerPoint> find_corners(const Section& section,
                                      const std::vector<LiquidCurve>& curves) {
  struct End {
    const BoundaryPiece* piece;
    bool at_start;
  };
  std::map<int, std::vector<End>> ends;
  for (const LiquidCurve& c : curves) {
    ends[c.piece.start_vertex].push_back({&c.piece, true});
    ends[c.piece.end_vertex].push_back({&c.piece, false});
  }
  std::vector<CornerPoint> corners;
  for (const auto& [vertex, pair] : ends) {
    if (pair.size() < 2) continue;
    CornerPoint corner;
    const End& a = pair[0];
    const End& b = pair[1];
    corner.at = a.at_start ? a.piece->curve.from : a.piece->curve.to;
    corner.reach = std::min(length(a.piece->curve), length(b.piece->curve));
    corner.owner[0] = a.piece->owner;
    corner.owner[1] = b.piece->owner;
    corner.electrode[0] = a.piece->electrode;
    corner.electrode[1] = b.piece->electrode;
    corner.part = a.piece->part || b.piece->part;
    // Where solids touch in a point, more than two pieces meet: the sharpest
    // corner that there can be is assumed.
    corner.angle =
        pair.size() > 2
            ? 2 * pi
            : liquid_angle(section, corner.at, leaving(*a.piece, a.at_start),
                           leaving(*b.piece, b.at_start), corner.reach);
    corners.push_back(corner);
  }
  return corners;
}

/// Regions by tag with the electrodes that each touches.
using RegionOwners = std::map<int, std::set<int>>;

Role role_of(const Section& section, int owner) {
  return section.solids[static_cast<std::size_t>(owner)].spec.role;
}

bool any_owner(const Section& section, const std::set<int>& owners,
               std::initializer_list<Role> roles) {
  return std::any_of(owners.begin(), owners.end(), [&](int owner) {
    return std::find(roles.begin(), roles.end(), role_of(section, owner)) !=
           roles.end();
  });
}

/// All electrodes that current can come to from one: through its liquid, and
/// through floating metal into the next.
std::set<int> in_reach(const Section& section, const RegionOwners& regions,
                       int from) {
  std::set<int> reached, bridges{from};
  std::set<int> done;  // regions
  bool grown = true;
  while (grown) {
    grown = false;
    for (const auto& [region, owners] : regions) {
      if (done.contains(region) ||
          std::none_of(owners.begin(), owners.end(),
                       [&](int o) { return bridges.contains(o); }))
        continue;
      done.insert(region);
      grown = true;
      reached.insert(owners.begin(), owners.end());
      for (int owner : owners)
        if (role_of(section, owner) == Role::floating) bridges.insert(owner);
    }
  }
  return reached;
}

/// Every part, thief and anode must be in reach of its counterpart.
void check_ways(const Section& section, const RegionOwners& regions) {
  std::vector<Problem> problems;
  for (std::size_t s = 0; s < section.solids.size(); ++s) {
    const Solid& solid = section.solids[s].spec;
    const std::set<int> others =
        in_reach(section, regions, static_cast<int>(s));
    if (solid.role == Role::anode &&
        !any_owner(section, others, {Role::part, Role::clip, Role::thief}))
      problems.push_back({solid.key,
                          "no liquid joins this anode to the part: its current "
                          "has no way back",
                          "put both into the same liquid, with nothing solid "
                          "between"});
    if ((solid.role == Role::part || solid.role == Role::thief) &&
        !any_owner(section, others, {Role::anode}))
      problems.push_back({solid.key,
                          solid.role == Role::part
                              ? "no liquid joins the part to an anode"
                              : "no liquid joins this thief to an anode",
                          "put both into the same liquid, with nothing solid "
                          "between, and leave some metal bare"});
  }
  if (!problems.empty()) throw InputError(problems);
}

}  // namespace

const Curve& curve_of(const Section& section, int owner, int loop, int curve) {
  if (owner == kDisc)
    return curve_of(section.discs[static_cast<std::size_t>(loop)].circle, 0,
                    curve);
  return curve_of(owner < 0
                      ? section.liquid_bounds
                      : section.solids[static_cast<std::size_t>(owner)].outline,
                  loop, curve);
}

double extent(const Section& section) {
  return bounding_box(section.liquid_bounds).size().maxCoeff();
}

LiquidCurve liquid_curve(const Section& section, int solid, int loop, int curve,
                         double from, double to) {
  const Curve& whole = curve_of(section, solid, loop, curve);
  const int owner = solid < 0 ? owner_of_bound(whole.face) : solid;
  LiquidCurve result{0, owner, loop, curve, {}};
  BoundaryPiece& piece = result.piece;
  piece.curve = from == 0 && to == 1 ? whole : piece_of(whole, from, to);
  piece.wall = owner < 0;
  if (owner >= 0) {
    const Role role = role_of(section, owner);
    piece.electrode = is_electrode(role) && !whole.masked;
    piece.part = role == Role::part && piece.electrode;
    piece.owner = owner;
  }
  return result;
}

Liquid cut_liquid(const Section& section) {
  // Booleans take as long as a mesh: outlines that stand free need none.
  std::vector<LiquidCurve> curves =
      all_apart(section) ? uncut(section) : cut_by_boolean(section);
  RegionOwners regions;
  for (const LiquidCurve& c : curves) {
    std::set<int>& owners = regions[c.region];
    if (c.piece.electrode) owners.insert(c.owner);
  }
  check_ways(section, regions);
  Liquid liquid;
  const auto dropped =
      std::count_if(regions.begin(), regions.end(),
                    [](const auto& r) { return r.second.size() < 2; });
  for (LiquidCurve& c : curves)
    if (regions.at(c.region).size() >= 2) liquid.curves.push_back(std::move(c));
  if (dropped > 0)
    liquid.notes.push_back(
        dropped == 1
            ? "A pool of liquid with fewer than two electrodes carries no "
              "current and is left out."
            : fmt::format("{} pools of liquid with fewer than two electrodes "
                          "carry no current and are left out.",
                          dropped));
  liquid.corners = find_corners(section, liquid.curves);
  split_at_discs(section, liquid);
  return liquid;
}

}  // namespace thinspot::mesh
