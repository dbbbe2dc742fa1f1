#include "viz/frame.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace thinspot::viz {

namespace {

double distance_to_piece(const Point& p, const Point& a, const Point& b) {
  const Point d = b - a;
  const double square = d.squaredNorm();
  const double t =
      square > 0 ? std::clamp((p - a).dot(d) / square, 0.0, 1.0) : 0;
  return (a + t * d - p).norm();
}

/// Marks the points between first and last to keep. A stack in place of
/// recursion: chains may be long.
void mark_kept(const std::vector<Point>& chain, std::size_t first,
               std::size_t last, double tolerance, std::vector<char>& keep) {
  std::vector<std::pair<std::size_t, std::size_t>> pieces{{first, last}};
  while (!pieces.empty()) {
    const auto [a, b] = pieces.back();
    pieces.pop_back();
    double worst = tolerance;
    std::size_t at = a;
    for (std::size_t k = a + 1; k < b; ++k) {
      const double d = distance_to_piece(chain[k], chain[a], chain[b]);
      if (d > worst) {
        worst = d;
        at = k;
      }
    }
    if (at == a) continue;
    keep[at] = 1;
    pieces.emplace_back(a, at);
    pieces.emplace_back(at, b);
  }
}

Point place(const Point& p, const Frame& frame, bool mirrored) {
  return frame.page(mirrored ? Point(-p.x(), p.y()) : p);
}

/// Goes on from a curve's start to its end.
void follow(PathText& d, const mesh::Curve& c, const Frame& frame,
            bool mirrored) {
  if (!mesh::is_arc(c)) {
    d.line(place(c.to, frame, mirrored));
    return;
  }
  // Counter-clockwise with y up is counter-clockwise on the page too.
  const bool clockwise = (c.bulge < 0) != mirrored;
  d.arc(place(c.to, frame, mirrored), mesh::radius(c) * frame.scale,
        std::abs(c.bulge) > 1, clockwise);
}

}  // namespace

std::vector<Point> Frame::page(const std::vector<Point>& points) const {
  std::vector<Point> result;
  result.reserve(points.size());
  for (const Point& p : points) result.push_back(page(p));
  return result;
}

TextBox right_of_axis(const Frame& frame) {
  TextBox box = frame.area;
  box.left = std::clamp(frame.page(Point(0, 0)).x(), box.left, box.right);
  return box;
}

TextBox left_of_axis(const Frame& frame) {
  TextBox box = frame.area;
  box.right = std::clamp(frame.page(Point(0, 0)).x(), box.left, box.right);
  return box;
}

Frame frame_at(double left, double top, const mesh::Box& model, double scale) {
  const Point size = model.size() * scale;
  return {{left, top, left + size.x(), top + size.y()}, model, scale};
}

PathText outline_path(const mesh::Outline& outline, const Frame& frame,
                      bool mirrored) {
  PathText d;
  for (const mesh::Loop& loop : outline.loops) {
    if (loop.empty()) continue;
    d.move(place(loop.front().from, frame, mirrored));
    for (const mesh::Curve& c : loop) follow(d, c, frame, mirrored);
    d.close();
  }
  return d;
}

PathText curves_path(const mesh::Outline& outline, const Frame& frame,
                     const std::function<bool(const mesh::Curve&)>& which,
                     bool mirrored) {
  PathText d;
  for (const mesh::Loop& loop : outline.loops) {
    bool on = false;
    for (const mesh::Curve& c : loop) {
      const bool wanted = which(c);
      if (wanted && !on) d.move(place(c.from, frame, mirrored));
      if (wanted) follow(d, c, frame, mirrored);
      on = wanted;
    }
  }
  return d;
}

bool inside(const mesh::Box& box, const Point& p) {
  return p.x() >= box.low.x() && p.x() <= box.high.x() &&
         p.y() >= box.low.y() && p.y() <= box.high.y();
}

std::vector<Point> simplified(const std::vector<Point>& chain, double tolerance,
                              bool closed) {
  if (chain.size() < 3) return chain;
  std::vector<char> keep(chain.size(), 0);
  keep.front() = keep.back() = 1;
  std::size_t far = 0;
  if (closed)
    for (std::size_t k = 1; k < chain.size(); ++k)
      if ((chain[k] - chain[0]).norm() > (chain[far] - chain[0]).norm())
        far = k;
  keep[far] = 1;
  mark_kept(chain, 0, far, tolerance, keep);
  mark_kept(chain, far, chain.size() - 1, tolerance, keep);
  std::vector<Point> result;
  for (std::size_t k = 0; k < chain.size(); ++k)
    if (keep[k] != 0) result.push_back(chain[k]);
  return result;
}

}  // namespace thinspot::viz
