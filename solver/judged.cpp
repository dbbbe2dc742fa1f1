#include "solver/judged.hpp"

#include "mesh/errors.hpp"
#include "solver/bare.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;

/// The ball of ISO 27830 that a significant surface can be touched by.
constexpr double kBallRadius = 0.010;
/// Places tried along a loop: more than its curves, fewer than matter.
constexpr double kPlaces = 2000;

/// Tells how far a point is from an outline, as far as that is less than the
/// ball's radius.
class Clearance {
 public:
  explicit Clearance(const Outline& outline) : outline_(outline) {
    for (const Loop& loop : outline.loops)
      for (const Curve& c : loop)
        if (c.face != "axis")
          curves_.emplace_back(&c, mesh::bounding_box({{{c}}}));
  }

  bool holds_ball(const Point& centre) const {
    constexpr double free = kBallRadius * (1 - 1e-3);
    for (const auto& [curve, box] : curves_) {
      if (mesh::distance(box, centre) < free &&
          mesh::nearest(*curve, centre).distance < free)
        return false;
    }
    return !mesh::contains(outline_, centre);
  }

 private:
  const Outline& outline_;
  std::vector<std::pair<const Curve*, mesh::Box>> curves_;
};

/// Where a ball that rests on the surface meets nothing else of the part.
Stretches touched_by_ball(const SurfaceLoop& s, const Outline& outline,
                          mesh::Cut cut) {
  const Loop& loop = outline.loops[static_cast<std::size_t>(s.loop)];
  const Clearance clearance(outline);
  Stretches pieces;
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const double size = mesh::length(loop[k]);
    const int steps = static_cast<int>(
        std::clamp(std::ceil(kPlaces * size / s.length), 1.0, 64.0));
    for (int j = 0; j < steps; ++j) {
      const double t = (j + 0.5) / steps;
      const Point centre = mesh::point_at(loop[k], t) +
                           kBallRadius * mesh::outward_normal(loop[k], t);
      // The other half of a body on the axis is in the ball's way as well.
      const Point mirrored(-centre.x(), centre.y());
      const bool touches =
          clearance.holds_ball(centre) &&
          (cut != mesh::Cut::axisymmetric || clearance.holds_ball(mirrored));
      if (touches)
        pieces.push_back({s.curve_start[k] + size * j / steps,
                          s.curve_start[k] + size * (j + 1) / steps});
    }
  }
  return make_set(pieces, s.length);
}

/// A hanging wire meets the part at its highest point.
bool hangs_by_wire(const Case& c) {
  return !c.wires.empty() && c.section.cut == mesh::Cut::side;
}

/// Contacts of a loop, each with the margin on both sides of it.
Stretches around_contacts(const mesh::Section& section, std::size_t solid,
                          const SurfaceLoop& s, const Case& c) {
  const double margin = c.target.contact_margin;
  Stretches pieces;
  if (margin <= 0) return pieces;
  if (hangs_by_wire(c) && s.loop == 0) {
    const double contact = highest_arc(s, section.solids[solid].outline);
    pieces.push_back({contact - margin, contact + margin});
  }
  for (const DryStretch& dry : dry_stretches(section, solid, s))
    if (dry.contact)
      pieces.push_back({dry.where.from - margin, dry.where.to + margin});
  return pieces;
}

}  // namespace

void check_target_faces(const Outline& outline, const Case& c) {
  std::set<std::string> known;
  for (const Loop& loop : outline.loops)
    for (const Curve& curve : loop)
      if (curve.face != "axis") known.insert(curve.face);
  std::string list;
  for (const std::string& face : known)
    list += (list.empty() ? "" : ", ") + face;
  for (const std::string& face : c.target.faces)
    if (!known.contains(face))
      throw InputError("target.faces", "the part has no face \"" + face + "\"",
                       "one or more of: " + list);
}

void mark_judged(Surface& surface, const mesh::Section& section,
                 std::size_t solid, const Case& c) {
  const Outline& outline = section.solids[solid].outline;
  check_target_faces(outline, c);
  for (SurfaceLoop& s : surface.loops) {
    const Stretches contacts = around_contacts(section, solid, s, c);
    if (!contacts.empty())
      s.open = common(
          s.open, complement(make_set(contacts, s.length), s.length), s.length);
    const Stretches significant =
        c.target.faces.empty() ? touched_by_ball(s, outline, section.cut)
                               : stretches_of_faces(s, outline, c.target.faces);
    s.judged = common(s.open, significant, s.length);
  }
}

}  // namespace thinspot::solver
