#include "mesh/crossing.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::mesh {

namespace {

double cross(const Point& a, const Point& b) {
  return a.x() * b.y() - a.y() * b.x();
}

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

std::vector<Point> line_line(const Curve& a, const Curve& b) {
  const Point d = a.to - a.from, e = b.to - b.from;
  const double det = cross(d, e);
  if (std::abs(det) <= 1e-14 * d.norm() * e.norm()) return {};
  return {a.from + d * (cross(b.from - a.from, e) / det)};
}

std::vector<Point> line_circle(const Curve& line, const Curve& arc) {
  const Point d = (line.to - line.from).normalized();
  const Point m = centre(arc);
  const Point foot = line.from + d * d.dot(m - line.from);
  const double r = radius(arc);
  const double half_squared = r * r - (m - foot).squaredNorm();
  if (half_squared < -1e-12 * r * r) return {};
  const double half = std::sqrt(std::max(half_squared, 0.0));
  return {foot - half * d, foot + half * d};
}

std::vector<Point> circle_circle(const Curve& a, const Curve& b) {
  const Point m = centre(a), between = centre(b) - m;
  const double ra = radius(a), rb = radius(b), d = between.norm();
  if (d <= 1e-12 * (ra + rb)) return {};
  const double along = (d * d + ra * ra - rb * rb) / (2 * d);
  const double half_squared = ra * ra - along * along;
  if (half_squared < -1e-12 * ra * ra) return {};
  const double half = std::sqrt(std::max(half_squared, 0.0));
  const Point u = between / d, v(-u.y(), u.x());
  return {m + along * u - half * v, m + along * u + half * v};
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
  std::vector<Point> more;
  if (!is_arc(a) && !is_arc(b)) more = line_line(a, b);
  if (!is_arc(a) && is_arc(b)) more = line_circle(a, b);
  if (is_arc(a) && !is_arc(b)) more = line_circle(b, a);
  if (is_arc(a) && is_arc(b)) more = circle_circle(a, b);
  candidates.insert(candidates.end(), more.begin(), more.end());
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
