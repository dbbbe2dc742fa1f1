#include "tests/peers/spacing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace thinspot::tests {

namespace {

using mesh::Point;

constexpr double kSame = 1e-9;  // [m]: nearer points are one

bool touch(const Border& a, const Border& b) {
  for (const Point& p : {a.line.from, a.line.to})
    for (const Point& q : {b.line.from, b.line.to})
      if ((p - q).norm() < kSame) return true;
  return false;
}

/// True where b goes on from the end of a as if they were one.
bool smooth(const Border& a, const Border& b) {
  const Point out = mesh::outward_normal(a.line, 1);
  const Point next = mesh::outward_normal(b.line, 0);
  return a.electrode == b.electrode && (out - next).norm() < 1e-6;
}

struct Ends {
  double from, to;  ///< sizes at both [m]
};

Ends sizes_at_ends(const std::vector<Border>& borders, const Border& b,
                   const Fineness& f) {
  Ends ends{f.at_corner, f.at_corner};
  for (const Border& other : borders) {
    if ((other.line.to - b.line.from).norm() < kSame && smooth(other, b))
      ends.from = f.at_cut;
    if ((other.line.from - b.line.to).norm() < kSame && smooth(b, other))
      ends.to = f.at_cut;
  }
  return ends;
}

/// Distance from a point of a border to another; infinity where metal lies
/// between.
/// @param out  unit normal there, away from the liquid
double through_liquid(const Point& p, const Point& out, const Border& other) {
  const mesh::Foot foot = mesh::nearest(other.line, p);
  const Point way = mesh::point_at(other.line, foot.t) - p;
  return way.dot(out) < 0 ? foot.distance
                          : std::numeric_limits<double>::infinity();
}

/// The longest that edges may be at the places of one border.
class Sizes {
 public:
  Sizes(const std::vector<Border>& borders, const Border& b, const Fineness& f)
      : b_(b), f_(f), ends_(sizes_at_ends(borders, b, f)) {
    for (const Border& other : borders)
      if (&other != &b && !touch(other, b)) opposite_.push_back(&other);
  }

  /// @param t  fraction of the border's length
  double at(double t) const {
    const Point p = mesh::point_at(b_.line, t);
    const Point out = mesh::outward_normal(b_.line, t);
    double size = f_.largest;
    if (mesh::is_arc(b_.line))
      size = std::min(size, f_.turn * mesh::radius(b_.line));
    for (const Border* other : opposite_)
      size = std::min(size, f_.across * through_liquid(p, out, *other));
    size = std::max(size, f_.at_corner);
    size = std::min(size, ends_.from + f_.growth * (p - b_.line.from).norm());
    return std::min(size, ends_.to + f_.growth * (p - b_.line.to).norm());
  }

 private:
  const Border& b_;
  const Fineness& f_;
  Ends ends_;
  std::vector<const Border*> opposite_;
};

std::vector<double> fractions(const Border& b, const Sizes& sizes) {
  const double length = mesh::length(b.line);
  std::vector<double> places{0};
  while (places.back() < 1 - 1e-12)
    places.push_back(places.back() + sizes.at(places.back()) / length);
  // The last one went too far, by less than the small size at the end.
  const double reached = places.back();
  for (double& t : places) t /= reached;
  return places;
}

}  // namespace

Fineness Fineness::times(double factor) const {
  return {at_corner * factor, at_cut * factor, growth * factor,
          across * factor,    turn * factor,   largest * factor};
}

std::vector<std::vector<double>> spaced(const std::vector<Border>& borders,
                                        const Fineness& fineness) {
  std::vector<std::vector<double>> all;
  for (const Border& b : borders)
    all.push_back(fractions(b, Sizes(borders, b, fineness)));
  return all;
}

std::vector<Landmark> landmarks(const std::vector<Border>& borders,
                                const Fineness& fineness) {
  std::vector<Landmark> all;
  for (const Border& b : borders) {
    const Sizes sizes(borders, b, fineness);
    for (double t : fractions(b, sizes))
      all.push_back({mesh::point_at(b.line, t), sizes.at(t)});
  }
  std::stable_sort(
      all.begin(), all.end(),
      [](const Landmark& a, const Landmark& b) { return a.size < b.size; });
  std::vector<Landmark> kept;
  for (const Landmark& here : all) {
    double told = fineness.largest;
    for (const Landmark& k : kept)
      told = std::min(told, k.size + fineness.growth * (here.at - k.at).norm());
    if (told > 1.5 * here.size) kept.push_back(here);
  }
  return kept;
}

}  // namespace thinspot::tests
