#include "mesh/contact.hpp"

#include "mesh/crossing.hpp"
#include "mesh/section_checks.hpp"

#include <cmath>
#include <optional>

namespace thinspot::mesh {

namespace {

/// Wedges of liquid narrower than this are closed [rad].
constexpr double kWedge = 0.1;

bool movable(Role role) { return role == Role::clip || role == Role::shield; }

/// Where two curves meet at less than the narrowest wedge, round against flat
/// or round; the direction into the second one's solid.
std::optional<Point> narrow_meeting(const Curve& a, const Curve& b,
                                    double touch) {
  if (!is_arc(a) && !is_arc(b)) return std::nullopt;
  const auto narrow = [&](double ta, double tb) -> std::optional<Point> {
    const Point p = outward_normal(a, ta), q = outward_normal(b, tb);
    if (std::abs(p.x() * q.y() - p.y() * q.x()) >= std::sin(kWedge) ||
        p.dot(q) > 0)
      return std::nullopt;
    return Point(-q);
  };
  for (double t : crossings(a, b))
    if (const auto way = narrow(t, nearest(b, point_at(a, t)).t)) return way;
  // Beside each other without crossing, by rounding.
  const auto look =
      [&](const Curve& round,
          const Curve& other) -> std::optional<std::pair<double, double>> {
    if (!is_arc(round)) return std::nullopt;
    const Foot foot = nearest(other, centre(round));
    const Foot back = nearest(round, point_at(other, foot.t));
    if (back.distance > touch) return std::nullopt;
    return std::pair(back.t, foot.t);
  };
  if (const auto at = look(a, b)) return narrow(at->first, at->second);
  if (const auto at = look(b, a)) return narrow(at->second, at->first);
  return std::nullopt;
}

std::optional<Point> narrow_meeting(const Outline& a, const Outline& b,
                                    double touch) {
  for (const Loop& p : a.loops)
    for (const Curve& c : p)
      for (const Loop& q : b.loops)
        for (const Curve& d : q)
          if (const auto way = narrow_meeting(c, d, touch)) return way;
  return std::nullopt;
}

}  // namespace

void press_together(Section& section) {
  const double touch = kTouch * extent(section.liquid_bounds);
  for (PlacedSolid& moving : section.solids) {
    if (!movable(moving.spec.role)) continue;
    const double step = 0.01 * bounding_box(moving.outline).size().minCoeff();
    for (const PlacedSolid& other : section.solids) {
      if (&other == &moving || boxes_apart(moving, other, touch)) continue;
      for (int k = 0; k < 5; ++k) {
        const auto way = narrow_meeting(moving.outline, other.outline, touch);
        if (!way) break;
        moving.spec.at += step * *way;
        moving.outline = moved(moving.outline, 0, step * *way);
      }
    }
  }
}

}  // namespace thinspot::mesh
