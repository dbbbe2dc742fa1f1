#include "mesh/repair.hpp"

#include "mesh/jacobian.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

namespace thinspot::mesh {

namespace {

using Corners = std::array<std::size_t, 3>;
using EdgeKey = std::pair<std::size_t, std::size_t>;

EdgeKey key_of(std::size_t a, std::size_t b) {
  return {std::min(a, b), std::max(a, b)};
}

double twice_area(const RawTriangles& raw, const Corners& c) {
  const Point a = raw.nodes.at(c[1]) - raw.nodes.at(c[0]);
  const Point b = raw.nodes.at(c[2]) - raw.nodes.at(c[0]);
  return a.x() * b.y() - a.y() * b.x();
}

double longest_squared(const RawTriangles& raw, const Corners& c) {
  double longest = 0;
  for (std::size_t k = 0; k < 3; ++k)
    longest = std::max(
        longest,
        (raw.nodes.at(c[k]) - raw.nodes.at(c[(k + 1) % 3])).squaredNorm());
  return longest;
}

/// Height over longest edge, signed.
double shape_of(const RawTriangles& raw, const Corners& c) {
  return twice_area(raw, c) / longest_squared(raw, c);
}

/// Turned so that its longest edge runs from corner 0 to corner 1.
Corners longest_first(const RawTriangles& raw, Corners c) {
  for (int k = 0; k < 3; ++k) {
    const double edge = (raw.nodes.at(c[0]) - raw.nodes.at(c[1])).squaredNorm();
    if (edge >= longest_squared(raw, c)) break;
    std::rotate(c.begin(), c.begin() + 1, c.end());
  }
  return c;
}

class Swapper {
 public:
  explicit Swapper(RawTriangles& raw) : raw_(raw) {
    for (std::size_t t = 0; t < raw.corners.size() / 3; ++t) {
      Corners c{raw.corners[3 * t], raw.corners[3 * t + 1],
                raw.corners[3 * t + 2]};
      if (twice_area(raw, c) < 0) std::swap(c[1], c[2]);
      put(t, c);
    }
  }

  std::set<std::size_t> flat() const {
    std::set<std::size_t> found;
    for (std::size_t t = 0; t < raw_.corners.size() / 3; ++t)
      if (shape_of(raw_, at(t)) < kFlat) found.insert(t);
    return found;
  }

  bool swap_longest_edge(std::size_t t) {
    const Corners flat = longest_first(raw_, at(t));
    const auto& sharing = users_.at(key_of(flat[0], flat[1]));
    if (sharing.size() != 2) return false;
    const std::size_t other = *std::find_if(
        sharing.begin(), sharing.end(), [t](std::size_t u) { return u != t; });
    const Corners neighbour = at(other);
    const std::size_t opposite = *std::find_if(
        neighbour.begin(), neighbour.end(),
        [&](std::size_t n) { return n != flat[0] && n != flat[1]; });
    Corners first{flat[0], opposite, flat[2]};
    Corners second{opposite, flat[1], flat[2]};
    double left = shape_of(raw_, first), right = shape_of(raw_, second);
    // Which way round a flat triangle runs is an accident of rounding; the new
    // pair must only agree with each other.
    if (left < 0 && right < 0) {
      std::swap(first[0], first[1]);
      std::swap(second[0], second[1]);
      left = -left;
      right = -right;
    }
    const double before =
        std::min(shape_of(raw_, flat), shape_of(raw_, neighbour));
    if (std::min(left, right) <= before) return false;
    take(t);
    take(other);
    put(t, first);
    put(other, second);
    return true;
  }

 private:
  Corners at(std::size_t t) const {
    return {raw_.corners[3 * t], raw_.corners[3 * t + 1],
            raw_.corners[3 * t + 2]};
  }
  void put(std::size_t t, const Corners& c) {
    for (std::size_t k = 0; k < 3; ++k) {
      raw_.corners[3 * t + k] = c[k];
      users_[key_of(c[k], c[(k + 1) % 3])].insert(t);
    }
  }
  void take(std::size_t t) {
    const Corners c = at(t);
    for (std::size_t k = 0; k < 3; ++k)
      users_[key_of(c[k], c[(k + 1) % 3])].erase(t);
  }

  RawTriangles& raw_;
  std::map<EdgeKey, std::set<std::size_t>> users_;
};

}  // namespace

bool swap_flat_triangles(RawTriangles& raw) {
  // The common case first: nothing to do, nothing to index.
  bool any = false;
  for (std::size_t t = 0; t < raw.corners.size(); t += 3) {
    const Corners c{raw.corners[t], raw.corners[t + 1], raw.corners[t + 2]};
    const double shape = shape_of(raw, c);
    any = any || (shape < kFlat && shape > -kFlat);
  }
  if (!any) return true;
  Swapper swapper(raw);
  // A swap may leave its neighbour flat; a few rounds settle it.
  for (int round = 0; round < 5; ++round) {
    const std::set<std::size_t> flat = swapper.flat();
    if (flat.empty()) return true;
    for (std::size_t t : flat) swapper.swap_longest_edge(t);
  }
  return swapper.flat().empty();
}

}  // namespace thinspot::mesh
