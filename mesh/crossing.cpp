#include "mesh/crossing.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::mesh {

namespace {

/// Keeps those candidates that lie on both curves.
std::vector<double> on_both(const Curve& a, const Curve& b,
                            const std::vector<Point>& candidates) {
  const double near = 1e-9 * (length(a) + length(b));
  std::vector<double> result;
  for (const Point& p : candidates) {
    const Foot foot = nearest(a, p);
    if (foot.distance <= near && nearest(b, p).distance <= near)
      result.push_back(foot.t);
  }
  return result;
}

/// The line or circle that a curve lies on: bend |p|^2 + slope p + offset = 0
/// for points p from an origin near both curves; bend is 1/(2 radius) and 0 on
/// a line. The centre, far away where an arc is flat, is not in it, so that no
/// digits are lost to its distance.
struct Carrier {
  double bend;
  Point slope;
  double offset;
};

Carrier carrier(const Curve& c, const Point& origin) {
  const Point chord = c.to - c.from;
  const double length = chord.norm(), b = c.bulge;
  const Point left = Point(-chord.y(), chord.x()) / length;
  // Half of the sweep has the sine 2 b/(1 + b^2); the tangent at the beginning
  // is the chord turned back by it.
  const double sine = 2 * b / (1 + b * b), cosine = (1 - b * b) / (1 + b * b);
  const double bend = sine / length;
  const Point normal = -cosine * left - sine * chord / length;
  const Point shift = origin - c.from;
  return {bend, 2 * bend * shift + normal,
          bend * shift.squaredNorm() + normal.dot(shift)};
}

/// Where two carriers meet, seen from the origin.
std::vector<Point> meetings(const Carrier& a, const Carrier& b) {
  // The line through the points common to both, and the more bent of them.
  Point across = b.bend * a.slope - a.bend * b.slope;
  double beyond = b.bend * a.offset - a.bend * b.offset;
  const bool straight = a.bend == 0 && b.bend == 0;
  if (straight) {
    across = a.slope;
    beyond = a.offset;
  }
  const double square = across.squaredNorm();
  const double bends = std::abs(a.bend) + std::abs(b.bend);
  if (!straight && std::sqrt(square) <= 1e-12 * bends) return {};
  const Point foot = -across * (beyond / square);
  const Point way = Point(-across.y(), across.x()) / std::sqrt(square);
  const Carrier& o = std::abs(a.bend) > std::abs(b.bend) ? a : b;
  // bend s^2 + fall s + rest = 0 along the line.
  const double fall = (2 * o.bend * foot + o.slope).dot(way);
  const double rest =
      o.bend * foot.squaredNorm() + o.slope.dot(foot) + o.offset;
  if (o.bend == 0) {
    if (std::abs(fall) <= 1e-14) return {};
    return {foot - way * (rest / fall)};
  }
  const double under_root = fall * fall - 4 * o.bend * rest;
  if (under_root < -1e-12) return {};
  const double root = std::sqrt(std::max(under_root, 0.0));
  const double sum = -0.5 * (fall + std::copysign(root, fall));
  if (sum == 0) return {foot};
  return {foot + way * (sum / o.bend), foot + way * (rest / sum)};
}

/// Of a stretch of a between two crossings, does its middle lie inside o?
bool enters(const Curve& a, const Outline& o, double tolerance) {
  std::vector<double> cuts{0, 1};
  for (const Loop& loop : o.loops)
    for (const Curve& b : loop)
      for (double t : crossings(a, b)) cuts.push_back(t);
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
    const Point middle = point_at(a, 0.5 * (cuts[k] + cuts[k + 1]));
    if (!contains(o, middle)) continue;
    for (const Loop& loop : o.loops)
      if (std::all_of(loop.begin(), loop.end(), [&](const Curve& b) {
            return nearest(b, middle).distance > tolerance;
          }))
        return true;
  }
  return false;
}

bool any_enters(const Outline& a, const Outline& b, double tolerance) {
  for (const Loop& loop : a.loops)
    for (const Curve& c : loop)
      if (enters(c, b, tolerance)) return true;
  return false;
}

/// A curve of an outline with its place in its loop.
struct PlacedCurve {
  const Loop* loop;
  std::size_t index;
  Box box;
  const Curve& curve() const { return (*loop)[index]; }
};

bool neighbours(const PlacedCurve& a, const PlacedCurve& b) {
  const std::size_t n = a.loop->size();
  return a.loop == b.loop &&
         ((a.index + 1) % n == b.index || (b.index + 1) % n == a.index);
}

bool is_end(const Curve& c, const Point& p, double tolerance) {
  return (p - c.from).norm() <= tolerance || (p - c.to).norm() <= tolerance;
}

}  // namespace

std::vector<double> crossings(const Curve& a, const Curve& b) {
  std::vector<Point> candidates{a.from, a.to, b.from, b.to};
  // Seen from the shorter one, at which they meet if they do.
  const Point origin =
      (a.to - a.from).norm() < (b.to - b.from).norm() ? a.from : b.from;
  for (const Point& p : meetings(carrier(a, origin), carrier(b, origin)))
    candidates.push_back(origin + p);
  return on_both(a, b, candidates);
}

bool overlap(const Outline& a, const Outline& b, double tolerance) {
  const Box p = bounding_box(a), q = bounding_box(b);
  if ((p.low.array() >= q.high.array() - tolerance).any() ||
      (q.low.array() >= p.high.array() - tolerance).any())
    return false;
  return any_enters(a, b, tolerance) || any_enters(b, a, tolerance) ||
         // The same outline twice enters itself nowhere.
         (std::abs(perimeter(a) - perimeter(b)) < tolerance &&
          (p.centre() - q.centre()).norm() < tolerance &&
          distance(a, b) < tolerance &&
          std::abs(area(a) - area(b)) < tolerance * perimeter(a));
}

std::optional<Point> self_crossing(const Outline& o, double tolerance) {
  std::vector<PlacedCurve> all;
  for (const Loop& loop : o.loops)
    for (std::size_t k = 0; k < loop.size(); ++k)
      all.push_back({&loop, k, bounding_box({{{loop[k]}}})});
  // From left to right: those that begin beyond the end of one miss it.
  std::sort(all.begin(), all.end(),
            [](const PlacedCurve& a, const PlacedCurve& b) {
              return a.box.low.x() < b.box.low.x();
            });
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      const PlacedCurve &a = all[i], &b = all[j];
      if (b.box.low.x() > a.box.high.x() + tolerance) break;
      if (b.box.low.y() > a.box.high.y() + tolerance ||
          a.box.low.y() > b.box.high.y() + tolerance)
        continue;
      for (double t : crossings(a.curve(), b.curve())) {
        const Point p = point_at(a.curve(), t);
        const bool end_to_end = neighbours(a, b) &&
                                is_end(a.curve(), p, tolerance) &&
                                is_end(b.curve(), p, tolerance);
        if (!end_to_end) return p;
      }
    }
  return std::nullopt;
}

}  // namespace thinspot::mesh
