#include "viz/coating.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

/// First and one-past-last point of each loop.
std::vector<std::pair<std::size_t, std::size_t>> loops_of(
    const PartResult& part) {
  std::vector<std::pair<std::size_t, std::size_t>> result;
  const auto& s = part.surface;
  for (std::size_t first = 0, k = 1; k <= s.size(); ++k)
    if (k == s.size() || s[k].loop != s[first].loop) {
      result.emplace_back(first, k);
      first = k;
    }
  return result;
}

enum class Kind { dry, judged, unjudged };

Kind kind_between(const SurfacePoint& a, const SurfacePoint& b) {
  if (!a.wetted || !b.wetted) return Kind::dry;
  return a.judged && b.judged ? Kind::judged : Kind::unjudged;
}

/// Cuts a walk along points into stretches of one kind.
void cut(const PartResult& part, const std::vector<std::size_t>& walk,
         std::vector<Stretch>& result) {
  Kind before = Kind::dry;
  for (std::size_t k = 0; k + 1 < walk.size(); ++k) {
    const Kind kind =
        kind_between(part.surface[walk[k]], part.surface[walk[k + 1]]);
    if (kind != Kind::dry) {
      if (kind != before) result.push_back({kind == Kind::judged, {walk[k]}});
      result.back().points.push_back(walk[k + 1]);
    }
    before = kind;
  }
}

/// Where a loop's walk may start without cutting a stretch in two.
std::size_t change_of_kind(const PartResult& part, std::size_t first,
                           std::size_t last) {
  const auto next = [&](std::size_t k) { return k + 1 < last ? k + 1 : first; };
  for (std::size_t k = first; k < last; ++k) {
    const auto& s = part.surface;
    if (kind_between(s[k], s[next(k)]) !=
        kind_between(s[next(k)], s[next(next(k))]))
      return next(k);
  }
  return first;
}

}  // namespace

std::vector<Stretch> stretches(const PartResult& part) {
  std::vector<Stretch> result;
  for (const auto& [first, last] : loops_of(part)) {
    const std::size_t n = last - first;
    const std::size_t start = change_of_kind(part, first, last) - first;
    std::vector<std::size_t> walk;
    for (std::size_t k = 0; k <= n; ++k)
      walk.push_back(first + (start + k) % n);
    cut(part, walk, result);
  }
  return result;
}

std::vector<Stretch> unrolled_stretches(const PartResult& part) {
  std::vector<Stretch> result;
  for (const auto& [first, last] : loops_of(part)) {
    std::vector<std::size_t> walk;
    for (std::size_t k = first; k < last; ++k) walk.push_back(k);
    walk.push_back(first);
    cut(part, walk, result);
  }
  return result;
}

std::vector<mesh::Point> coating_surface(const PartResult& part,
                                         const Stretch& stretch, double factor,
                                         double highest) {
  std::vector<mesh::Point> result;
  for (const std::size_t k : stretch.points) {
    const SurfacePoint& s = part.surface[k];
    result.emplace_back(s.at +
                        factor * std::min(s.thickness, highest) * s.normal);
  }
  return result;
}

std::vector<mesh::Point> offset_surface(const PartResult& part,
                                        const Stretch& stretch,
                                        double distance) {
  std::vector<mesh::Point> result;
  for (const std::size_t k : stretch.points)
    result.emplace_back(part.surface[k].at + distance * part.surface[k].normal);
  return result;
}

std::vector<std::size_t> equal_current_points(const PartResult& part,
                                              int count) {
  const auto current = [](const SurfacePoint& s) {
    return s.wetted ? std::max(0.0, s.weight * s.current_density) : 0.0;
  };
  double whole = 0;
  for (const SurfacePoint& s : part.surface) whole += current(s);
  std::vector<std::size_t> result;
  if (!(whole > 0)) return result;
  double sum = 0;
  for (std::size_t k = 0; k < part.surface.size(); ++k) {
    sum += current(part.surface[k]);
    const double wanted = (static_cast<double>(result.size()) + 0.5) / count;
    if (sum >= wanted * whole && result.size() < std::size_t(count))
      result.push_back(k);
  }
  return result;
}

double drawn_thickness_limit(const PartResult& part) {
  return 1.2 * part.thickness.value.max;
}

}  // namespace thinspot::viz
