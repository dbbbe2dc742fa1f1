#include "solver/findings.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace thinspot::solver {

namespace {

using mesh::Box;
using mesh::Cut;
using mesh::PlacedSolid;
using mesh::Point;
using mesh::Role;

// Common practice, no source.
constexpr double kShadow = 0.45;       // share of view: its own width away
constexpr double kShadowedFace = 0.1;  // share of a face in such a shadow
constexpr double kFace = 0.1;          // of the surface: worth a word
constexpr double kCovered = 0.8;       // of the part's extent, by an anode
constexpr double kNearEdge = 0.010;    // of the liquid's surface or floor [m]
constexpr double kDeep = 3;            // times as deep as thick: a wall
constexpr std::size_t kSeveral = 3;    // ways to stand: it is being turned

/// Thickness of a body, bent or straight: the short side of the rectangle with
/// its area and perimeter.
double thickness(const mesh::Outline& o) {
  const double half = mesh::perimeter(o) / 2, area = std::abs(mesh::area(o));
  const double root = std::sqrt(std::max(0.0, half * half - 4 * area));
  return std::min(0.5 * (half - root), mesh::bounding_box(o).size().minCoeff());
}

bool casts_shadow(Role role) {
  return role == Role::clip || role == Role::shield || role == Role::floating ||
         role == Role::part;
}

/// Parts of an outline below the level and inside the tank, near enough.
mesh::Loop in_liquid(const Bench& b, std::size_t solid) {
  if (!b.wetted.of_solid[solid].pieces.empty())
    return b.wetted.of_solid[solid].pieces;
  mesh::Loop pieces;
  for (const mesh::Loop& loop : b.section.solids[solid].outline.loops)
    pieces.insert(pieces.end(), loop.begin(), loop.end());
  return pieces;
}

void look_for_shadows(const Bench& b, std::size_t part,
                      std::vector<Finding>& found) {
  const PlacedSolid& p = b.section.solids[part];
  const auto& judged = b.content.target.faces;
  const auto samples =
      samples_of(b.wetted.of_solid[part].pieces, b.section.cut);
  for (std::size_t s = 0; s < b.section.solids.size(); ++s) {
    const PlacedSolid& other = b.section.solids[s];
    if (&p == &other || !casts_shadow(other.spec.role)) continue;
    const mesh::Loop pieces = in_liquid(b, s);
    std::map<std::string, std::pair<double, double>> faces;  // dark, all
    for (const SurfaceSample& at : samples) {
      auto& [dark, all] = faces[at.piece->face];
      all += at.measure;
      if (share_of_view(at, pieces) > kShadow) dark += at.measure;
    }
    for (const auto& [face, measures] : faces) {
      const bool counts =
          judged.empty()
              ? measures.second > kFace * b.wetted.of_solid[part].measure
              : std::find(judged.begin(), judged.end(), face) != judged.end();
      if (!counts) continue;
      const double share = measures.first / measures.second;
      if (share > kShadowedFace)
        found.push_back({Look::shadowed, other.spec.key, face, share, 0});
    }
  }
}

void look_at_faces(const Bench& b, std::size_t part,
                   std::vector<Finding>& found) {
  const PlacedSolid& p = b.section.solids[part];
  std::map<std::string, double> whole, wet;
  for (const mesh::Loop& loop : p.outline.loops)
    for (const mesh::Curve& c : loop) whole[c.face] += mesh::length(c);
  for (const mesh::Curve& c : b.wetted.of_solid[part].pieces)
    wet[c.face] += mesh::length(c);
  for (const std::string& face : b.content.target.faces) {
    if (!whole.contains(face)) continue;
    const double share = wet[face] / whole[face];
    // A clip's contact takes a little off; that is what it is for.
    if (share < 0.9)
      found.push_back({Look::face_not_wetted, p.spec.key, face, share, 0});
  }
}

/// How much of the part's extent across the way between them an anode covers.
double covered(const Box& part, const Box& anode) {
  const auto apart = [&](Eigen::Index k) {
    return part.high(k) < anode.low(k) || anode.high(k) < part.low(k);
  };
  const Eigen::Index across = apart(0) ? 1 : 0;
  if (!apart(0) && !apart(1)) return 1;
  const double both = std::min(part.high(across), anode.high(across)) -
                      std::max(part.low(across), anode.low(across));
  return std::max(0.0, both) / part.size()(across);
}

/// Of all parts together, as far as wetted.
Box box_of_parts(const Bench& b) {
  mesh::Loop pieces;
  for (std::size_t s = 0; s < b.section.solids.size(); ++s)
    if (b.section.solids[s].spec.role == Role::part)
      pieces.insert(pieces.end(), b.wetted.of_solid[s].pieces.begin(),
                    b.wetted.of_solid[s].pieces.end());
  return mesh::bounding_box({{pieces}});
}

void look_at_anodes(const Bench& b, std::vector<Finding>& found) {
  const Box parts = box_of_parts(b);
  Finding tallest{Look::anode_too_short, "", "", -1, 0};
  for (const Anode& a : b.content.anodes) {
    const PlacedSolid& anode = b.section.solids[a.solid];
    for (const PlacedSolid& part : b.section.solids) {
      if (part.spec.role != Role::part) continue;
      const double gap = mesh::distance(part.outline, anode.outline);
      const double thick = thickness(part.outline);
      if (gap < thick)
        found.push_back({Look::anode_too_near, anode.spec.key, "", gap, thick});
    }
    const double share = covered(
        parts, mesh::bounding_box({{b.wetted.of_solid[a.solid].pieces}}));
    if (share > tallest.value) {
      tallest.value = share;
      tallest.solid = anode.spec.key;
    }
  }
  if (!tallest.solid.empty() && tallest.value < kCovered)
    found.push_back(tallest);
}

void look_at_place(const Bench& b, std::size_t part,
                   std::vector<Finding>& found) {
  const PlacedSolid& p = b.section.solids[part];
  const Box box = mesh::bounding_box(p.outline);
  const Box liquid = mesh::bounding_box(b.section.liquid_bounds);
  mesh::Outline walls{{{}}};
  for (const mesh::Curve& c : b.section.liquid_bounds.loops.front())
    if (c.face == "wall") walls.loops.front().push_back(c);
  const double touch = 1e-6 * liquid.size().maxCoeff();
  const bool at_wall = mesh::distance(p.outline, walls) <= touch;
  if (at_wall) found.push_back({Look::touches_wall, p.spec.key, "", 0, 0});
  if (b.section.cut == Cut::plan) return;
  const double level = liquid.high.y();
  if (box.high.y() > level + touch) {
    double out = 0, all = 0;
    for (const mesh::Loop& loop : p.outline.loops)
      for (const SurfaceSample& s : samples_of(loop, Cut::side)) {
        // Of a sample that dips through the level, what is above it.
        const double rise = s.measure * std::abs(s.normal.x()) + touch;
        all += s.measure;
        out +=
            s.measure * std::clamp((s.at.y() - level) / rise + 0.5, 0.0, 1.0);
      }
    found.push_back({Look::half_dipped, p.spec.key, "", out / all, 0});
  } else if (level - box.high.y() < kNearEdge) {
    found.push_back(
        {Look::near_surface, p.spec.key, "", level - box.high.y(), 0});
  }
  const double above = box.low.y() - liquid.low.y();
  if (above < kNearEdge && !at_wall)
    found.push_back({Look::near_floor, p.spec.key, "", above, 0});
}

/// A clip that stops short of every part holds and feeds nothing.
void look_at_clips(const Bench& b, std::vector<Finding>& found) {
  const double touch =
      1e-6 * mesh::bounding_box(b.section.liquid_bounds).size().maxCoeff();
  for (const PlacedSolid& clip : b.section.solids) {
    if (clip.spec.role != Role::clip) continue;
    double least = 1e9;
    for (const PlacedSolid& part : b.section.solids) {
      if (part.spec.role != Role::part) continue;
      // One that overlaps the part holds it, however deep its outline lies.
      const bool within =
          mesh::contains(part.outline, clip.outline.loops[0][0].from) ||
          mesh::contains(clip.outline, part.outline.loops[0][0].from);
      least = std::min(least,
                       within ? 0 : mesh::distance(clip.outline, part.outline));
    }
    if (least > touch)
      found.push_back({Look::clip_apart, clip.spec.key, "", least, 0});
  }
}

/// A section has no end to either side: a strip or wire drawn in it is a wall.
/// A round dot in a view from above is an upright wire, and no wall.
void look_for_walls(const Bench& b, std::vector<Finding>& found) {
  if (b.section.cut == Cut::axisymmetric) return;
  for (std::size_t s = 0; s < b.section.solids.size(); ++s) {
    const PlacedSolid& clip = b.section.solids[s];
    if (clip.spec.role != Role::clip || b.wetted.of_solid[s].measure <= 0)
      continue;
    if (b.section.cut == Cut::plan && clip.spec.shape == "rod") continue;
    const double thick = thickness(clip.outline);
    if (b.depth > kDeep * thick)
      found.push_back(
          {Look::wall_for_a_clip, clip.spec.key, "", b.depth, thick});
  }
}

void look_at_turning(const Bench& b, std::vector<Finding>& found) {
  if (b.section.cut != Cut::side) return;
  std::set<double> turns;
  bool turning = false;
  for (const Step& step : b.content.steps) {
    turns.insert(step.motion.turn);
    turning = turning || step.turning;
  }
  if (turning || turns.size() >= kSeveral)
    found.push_back({Look::turns_as_a_wheel, "", "", 0, 0});
}

}  // namespace

double share_of_view(const SurfaceSample& from, const mesh::Loop& other) {
  // Angles are kept as sines, counted from the normal along the surface.
  const Point along(-from.normal.y(), from.normal.x());
  double low = 1, high = -1;
  for (const mesh::Curve& c : other)
    for (int k = 0; k <= 16; ++k) {
      const Point way = mesh::point_at(c, k / 16.0) - from.at;
      const double size = way.norm();
      // What lies behind the surface's horizon is not seen.
      if (size == 0 || way.dot(from.normal) <= 0) continue;
      const double sine = way.dot(along) / size;
      low = std::min(low, sine);
      high = std::max(high, sine);
    }
  return high > low ? 0.5 * (high - low) : 0;
}

std::vector<Finding> look_at_drawing(const Bench& b) {
  std::vector<Finding> found;
  for (std::size_t s = 0; s < b.section.solids.size(); ++s) {
    if (b.section.solids[s].spec.role != Role::part) continue;
    look_at_faces(b, s, found);
    look_for_shadows(b, s, found);
    look_at_place(b, s, found);
  }
  look_at_anodes(b, found);
  look_at_clips(b, found);
  look_for_walls(b, found);
  look_at_turning(b, found);
  return found;
}

}  // namespace thinspot::solver
