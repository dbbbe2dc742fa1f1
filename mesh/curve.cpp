#include "mesh/curve.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace thinspot::mesh {

namespace {

constexpr double pi = std::numbers::pi;

Point rotated(const Point& p, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  return {c * p.x() - s * p.y(), s * p.x() + c * p.y()};
}

double cross(const Point& a, const Point& b) {
  return a.x() * b.y() - a.y() * b.x();
}

double sweep(const Curve& c) { return 4 * std::atan(c.bulge); }

double angle_of(const Point& p) { return std::atan2(p.y(), p.x()); }

/// Fraction of an arc at which the ray from its centre through p crosses it,
/// outside 0..1 where it misses the arc.
double arc_fraction(const Curve& c, const Point& p) {
  const Point m = centre(c);
  const double total = sweep(c);
  double turned = angle_of(p - m) - angle_of(c.from - m);
  if (total < 0) turned = -turned;
  // A rounding below the start must not become a whole turn.
  while (turned < -1e-12) turned += 2 * pi;
  while (turned >= 2 * pi - 1e-12) turned -= 2 * pi;
  return turned / std::abs(total);
}

void stretch(Box& box, const Point& p) {
  box.low = box.low.cwiseMin(p);
  box.high = box.high.cwiseMax(p);
}

}  // namespace

const Curve& curve_of(const Outline& o, int loop, int curve) {
  return o
      .loops[static_cast<std::size_t>(loop)][static_cast<std::size_t>(curve)];
}

bool is_arc(const Curve& c) { return c.bulge != 0; }

double radius(const Curve& c) {
  if (!is_arc(c)) return std::numeric_limits<double>::infinity();
  const double chord = (c.to - c.from).norm();
  return std::abs(chord / (2 * std::sin(sweep(c) / 2)));
}

Point centre(const Curve& c) {
  // The centre lies on the perpendicular bisector, cot(sweep/2) half chords to
  // the left of travel; with b = tan(sweep/4), cot(sweep/2) = (1 - b^2)/(2 b).
  const Point chord = c.to - c.from;
  const Point left(-chord.y(), chord.x());
  const double b = c.bulge;
  return 0.5 * (c.from + c.to) + left * ((1 - b * b) / (4 * b));
}

double length(const Curve& c) {
  if (!is_arc(c)) return (c.to - c.from).norm();
  return radius(c) * std::abs(sweep(c));
}

Point point_at(const Curve& c, double t) {
  if (t <= 0) return c.from;
  if (t >= 1) return c.to;
  if (!is_arc(c)) return c.from + t * (c.to - c.from);
  const Point m = centre(c);
  return m + rotated(c.from - m, t * sweep(c));
}

Point outward_normal(const Curve& c, double t) {
  if (!is_arc(c)) {
    const Point d = (c.to - c.from).normalized();
    return {d.y(), -d.x()};
  }
  const Point away = (point_at(c, t) - centre(c)).normalized();
  return c.bulge > 0 ? away : Point(-away);
}

Foot nearest(const Curve& c, const Point& p) {
  double t = 0;
  if (is_arc(c)) {
    t = arc_fraction(c, p);
    if (t > 1) t = (p - c.from).norm() < (p - c.to).norm() ? 0 : 1;
  } else {
    const Point d = c.to - c.from;
    const double square = d.squaredNorm();
    t = square > 0 ? std::clamp((p - c.from).dot(d) / square, 0.0, 1.0) : 0;
  }
  return {t, (point_at(c, t) - p).norm()};
}

OutlineFoot nearest(const Outline& o, const Point& p) {
  OutlineFoot best;
  best.distance = std::numeric_limits<double>::infinity();
  for (std::size_t l = 0; l < o.loops.size(); ++l)
    for (std::size_t k = 0; k < o.loops[l].size(); ++k) {
      const Foot foot = nearest(o.loops[l][k], p);
      if (foot.distance < best.distance)
        best = {l, k, foot.t, foot.distance, point_at(o.loops[l][k], foot.t)};
    }
  return best;
}

bool is_mirrored(const Outline& o, double near) {
  const auto lies_on = [&](const Point& p) {
    for (const Loop& loop : o.loops)
      for (const Curve& c : loop) {
        // No point of a curve is farther from its ends than its length.
        if ((p - c.from).norm() > length(c) + near) continue;
        if (nearest(c, p).distance <= near) return true;
      }
    return false;
  };
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop)
      for (int k = 0; k < 16; ++k) {
        const Point p = point_at(c, k / 16.0);
        if (!lies_on({-p.x(), p.y()})) return false;
      }
  return true;
}

double distance(const Box& box, const Point& p) {
  const Point outside =
      (box.low - p).cwiseMax(p - box.high).cwiseMax(Point::Zero());
  return outside.norm();
}

double distance(const Box& a, const Box& b) {
  const Point between =
      (a.low - b.high).cwiseMax(b.low - a.high).cwiseMax(Point::Zero());
  return between.norm();
}

Curve piece_of(const Curve& c, double t0, double t1) {
  Curve piece = c;
  piece.from = point_at(c, t0);
  piece.to = point_at(c, t1);
  if (is_arc(c)) piece.bulge = std::tan((t1 - t0) * std::atan(c.bulge));
  return piece;
}

double perimeter(const Outline& o) {
  double sum = 0;
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop) sum += length(c);
  return sum;
}

double area(const Outline& o) {
  double twice = 0;
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop) {
      twice += cross(c.from, c.to);
      // The segment between chord and arc: r^2 (sweep - sin sweep) / 2.
      if (is_arc(c)) {
        const double r = radius(c), s = sweep(c);
        twice += r * r * (s - std::sin(s));
      }
    }
  return 0.5 * twice;
}

Box bounding_box(const Outline& o) {
  constexpr double inf = std::numeric_limits<double>::infinity();
  Box box{{inf, inf}, {-inf, -inf}};
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop) {
      stretch(box, c.from);
      stretch(box, c.to);
      if (!is_arc(c)) continue;
      const Point m = centre(c);
      const double r = radius(c);
      for (const Point& way :
           {Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1)}) {
        const Point extreme = m + r * way;
        if (arc_fraction(c, extreme) <= 1) stretch(box, extreme);
      }
    }
  return box;
}

bool contains(const Outline& o, const Point& p) {
  // Sum of the angles under which p sees the chords: the winding number. An
  // arc turns once more where p lies between it and its chord.
  double turned = 0;
  for (const Loop& loop : o.loops)
    for (const Curve& c : loop) {
      const Point a = c.from - p, b = c.to - p;
      // One sign decides both the angle and the side of the chord: a point on
      // the chord itself must not fall between two roundings.
      const double side = cross(a, b);
      turned += std::atan2(side == 0 ? 0.0 : side, a.dot(b));
      if (!is_arc(c)) continue;
      // On the chord counts as left of it, here as in the angle above.
      const bool beyond_chord = c.bulge > 0 ? side < 0 : side >= 0;
      const bool in_circle = (p - centre(c)).norm() < radius(c);
      if (beyond_chord && in_circle) turned += c.bulge > 0 ? 2 * pi : -2 * pi;
    }
  return turned > pi;
}

double distance(const Outline& a, const Outline& b) {
  // Between straight curves the least distance is at an end of one of them;
  // on arcs, 64 points leave an error of r (1 - cos(sweep/128)).
  const auto one_way = [](const Outline& from, const Outline& to) {
    double least = std::numeric_limits<double>::infinity();
    for (const Loop& loop : from.loops)
      for (const Curve& c : loop) {
        const int points = is_arc(c) ? 64 : 1;
        for (int k = 0; k < points; ++k) {
          const Point p = point_at(c, double(k) / points);
          for (const Loop& other : to.loops)
            for (const Curve& d : other)
              least = std::min(least, nearest(d, p).distance);
        }
      }
    return least;
  };
  return std::min(one_way(a, b), one_way(b, a));
}

Outline mirrored(const Outline& o, double x) {
  const auto image = [x](const Point& p) {
    return Point(2 * x - p.x(), p.y());
  };
  Outline result;
  for (const Loop& loop : o.loops) {
    result.loops.emplace_back();
    for (auto c = loop.rbegin(); c != loop.rend(); ++c) {
      Curve turned = *c;
      turned.from = image(c->to);
      turned.to = image(c->from);
      result.loops.back().push_back(turned);
    }
  }
  return result;
}

Outline moved(const Outline& o, double turn, const Point& shift) {
  Outline result = o;
  for (Loop& loop : result.loops)
    for (Curve& c : loop) {
      if (turn != 0) {
        c.from = rotated(c.from, turn);
        c.to = rotated(c.to, turn);
      }
      c.from += shift;
      c.to += shift;
    }
  return result;
}

}  // namespace thinspot::mesh
