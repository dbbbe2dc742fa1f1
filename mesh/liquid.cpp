#include "mesh/liquid.hpp"

#include "mesh/errors.hpp"

#include <fmt/format.h>
#include <gmsh.h>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <map>
#include <numbers>
#include <set>

namespace thinspot::mesh {

namespace {

namespace occ = gmsh::model::occ;
constexpr double pi = std::numbers::pi;

double extent(const Section& section) {
  return bounding_box(section.liquid_bounds).size().maxCoeff();
}

/// OpenCASCADE takes arcs by three points and the shorter way: long ones are
/// given in pieces.
void add_curve(const Curve& c, int from, int to, double scale,
               std::vector<int>& tags) {
  if (!is_arc(c)) {
    tags.push_back(occ::addLine(from, to));
    return;
  }
  const Point m = centre(c) * scale;
  const int middle = occ::addPoint(m.x(), m.y(), 0);
  const int pieces = std::abs(c.bulge) > 0.6 ? 2 : 1;
  int last = from;
  for (int k = 1; k <= pieces; ++k) {
    const Point p = point_at(c, double(k) / pieces) * scale;
    const int next = k == pieces ? to : occ::addPoint(p.x(), p.y(), 0);
    tags.push_back(occ::addCircleArc(last, middle, next));
    last = next;
  }
}

int add_wire(const Loop& loop, double scale) {
  std::vector<int> points, tags;
  for (const Curve& c : loop)
    points.push_back(occ::addPoint(c.from.x() * scale, c.from.y() * scale, 0));
  for (std::size_t k = 0; k < loop.size(); ++k)
    add_curve(loop[k], points[k], points[(k + 1) % points.size()], scale, tags);
  return occ::addCurveLoop(tags);
}

/// The same loop walked the other way: the kernel takes holes, too,
/// counter-clockwise and makes wrong regions of them otherwise.
Loop reversed(const Loop& loop) {
  Loop result;
  for (auto c = loop.rbegin(); c != loop.rend(); ++c)
    result.push_back({c->to, c->from, -c->bulge, c->face});
  return result;
}

/// One surface for each outer loop, with the holes that lie inside it.
gmsh::vectorpair add_surfaces(const Outline& o, double scale) {
  gmsh::vectorpair surfaces;
  for (const Loop& outer : o.loops) {
    const Outline alone{{outer}};
    if (area(alone) < 0) continue;
    std::vector<int> wires{add_wire(outer, scale)};
    for (const Loop& hole : o.loops)
      if (area({{hole}}) < 0 && contains(alone, hole.front().from))
        wires.push_back(add_wire(reversed(hole), scale));
    surfaces.emplace_back(2, occ::addPlaneSurface(wires));
  }
  return surfaces;
}

struct Named {
  int owner = kWall, loop = 0, curve = 0;
};

int owner_of_bound(const std::string& face) {
  if (face == "surface") return kSurface;
  return face == "axis" ? kAxis : kWall;
}

/// Which curve of ours the three given points of a Gmsh curve lie on.
Named identify(const Section& section, const std::array<Point, 3>& points) {
  Named best;
  double least = 1e-6 * extent(section);
  const auto look = [&](const Outline& o, int solid) {
    for (std::size_t l = 0; l < o.loops.size(); ++l)
      for (std::size_t k = 0; k < o.loops[l].size(); ++k) {
        const Curve& c = o.loops[l][k];
        double worst = 0;
        for (const Point& p : points)
          worst = std::max(worst, nearest(c, p).distance);
        if (worst >= least) continue;
        least = worst;
        best = {solid < 0 ? owner_of_bound(c.face) : solid, static_cast<int>(l),
                static_cast<int>(k)};
      }
  };
  const double none = least;
  look(section.liquid_bounds, -1);
  for (std::size_t s = 0; s < section.solids.size(); ++s)
    look(section.solids[s].outline, static_cast<int>(s));
  if (least == none)
    throw NoResultError(
        "the cut of the section left a boundary that belongs to nothing");
  return best;
}

Point value(int dim, int tag, const std::vector<double>& at, double scale) {
  std::vector<double> xyz;
  gmsh::model::getValue(dim, tag, at, xyz);
  return Point(xyz[0], xyz[1]) / scale;
}

LiquidCurve describe(int tag, const Section& section, double scale) {
  std::vector<double> low, high;
  gmsh::model::getParametrizationBounds(1, tag, low, high);
  std::array<Point, 3> points;
  for (std::size_t k = 0; k < 3; ++k)
    points[k] = value(
        1, tag, {low[0] + (high[0] - low[0]) * (0.2 + 0.3 * double(k))}, scale);
  const Named named = identify(section, points);
  LiquidCurve result{tag, named.owner, named.loop, named.curve, {}};
  const Curve& whole = curve_of(section, named.owner, named.loop, named.curve);
  gmsh::vectorpair ends;
  gmsh::model::getBoundary({{1, tag}}, ends, false, false);
  if (ends.size() != 2)
    throw NoResultError("the cut of the section left a curve without ends");
  double t[2];
  for (std::size_t k = 0; k < 2; ++k)
    t[k] = nearest(whole, value(0, ends[k].second, {}, scale)).t;
  // On a closed pair of arcs an end can be read as 0 or 1 of either.
  const std::size_t first = t[0] <= t[1] ? 0 : 1;
  BoundaryPiece& piece = result.piece;
  piece.start_vertex = ends[first].second;
  piece.end_vertex = ends[1 - first].second;
  const double t0 = t[first], t1 = t[1 - first];
  piece.curve = piece_of(whole, t0, t1);
  piece.wall = named.owner < 0;
  if (named.owner >= 0) {
    const Role role =
        section.solids[static_cast<std::size_t>(named.owner)].spec.role;
    piece.electrode = is_electrode(role) && !whole.masked;
    piece.part = role == Role::part && piece.electrode;
    piece.owner = named.owner;
  }
  return result;
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

double model_scale(const Section& section) { return 1000 / extent(section); }

const Curve& curve_of(const Section& section, int owner, int loop, int curve) {
  return curve_of(owner < 0
                      ? section.liquid_bounds
                      : section.solids[static_cast<std::size_t>(owner)].outline,
                  loop, curve);
}

Liquid cut_liquid(const Section& section) {
  const double scale = model_scale(section);
  const gmsh::vectorpair tank = add_surfaces(section.liquid_bounds, scale);
  gmsh::vectorpair solids, pieces = tank;
  for (const PlacedSolid& s : section.solids)
    for (const auto& surface : add_surfaces(s.outline, scale))
      solids.push_back(surface);
  std::vector<gmsh::vectorpair> map;
  if (!solids.empty()) occ::cut(tank, solids, pieces, map);
  occ::synchronize();

  Liquid liquid;
  RegionOwners regions;
  std::map<int, LiquidCurve> described;
  std::map<int, std::vector<int>> curves_of;
  for (const auto& [dim, surface] : pieces) {
    if (dim != 2) continue;
    gmsh::vectorpair boundary;
    gmsh::model::getBoundary({{2, surface}}, boundary, false, false);
    regions[surface];
    for (const auto& [curve_dim, tag] : boundary) {
      if (!described.contains(tag))
        described.emplace(tag, describe(tag, section, scale));
      curves_of[surface].push_back(tag);
      const LiquidCurve& c = described.at(tag);
      if (c.piece.electrode) regions[surface].insert(c.owner);
    }
  }
  check_ways(section, regions);
  gmsh::vectorpair dropped;
  std::set<int> used;
  for (const auto& [surface, owners] : regions) {
    if (owners.size() < 2) {
      dropped.emplace_back(2, surface);
      continue;
    }
    liquid.surfaces.push_back(surface);
    used.insert(curves_of[surface].begin(), curves_of[surface].end());
  }
  for (int tag : used) liquid.curves.push_back(described.at(tag));
  if (!dropped.empty()) {
    liquid.notes.push_back(
        dropped.size() == 1
            ? "A pool of liquid with fewer than two electrodes carries no "
              "current and is left out."
            : fmt::format("{} pools of liquid with fewer than two electrodes "
                          "carry no current and are left out.",
                          dropped.size()));
    occ::remove(dropped, true);
    occ::synchronize();
  }
  liquid.corners = find_corners(section, liquid.curves);
  return liquid;
}

}  // namespace thinspot::mesh
