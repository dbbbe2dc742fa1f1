#include "viz/coating.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::viz {

namespace {

using solver::PartResult;
using solver::SurfacePoint;

enum class Kind { dry, judged, unjudged };

Kind kind_between(const SurfacePoint& a, const SurfacePoint& b,
                  const SurfaceLoop& loop) {
  if (!a.wetted || !b.wetted || !neighbours(a, b, loop)) return Kind::dry;
  return a.judged && b.judged ? Kind::judged : Kind::unjudged;
}

/// Cuts a walk along points into stretches of one kind.
void cut(const PartResult& part, const SurfaceLoop& loop,
         const std::vector<std::size_t>& walk, std::vector<Stretch>& result) {
  Kind before = Kind::dry;
  for (std::size_t k = 0; k + 1 < walk.size(); ++k) {
    const Kind kind =
        kind_between(part.surface[walk[k]], part.surface[walk[k + 1]], loop);
    if (kind != Kind::dry) {
      if (kind != before) result.push_back({kind == Kind::judged, {walk[k]}});
      result.back().points.push_back(walk[k + 1]);
    }
    before = kind;
  }
}

/// Where a loop's walk may start without cutting a stretch in two.
std::size_t change_of_kind(const PartResult& part, const SurfaceLoop& loop) {
  const auto& s = part.surface;
  const auto next = [&](std::size_t k) {
    return k + 1 < loop.last ? k + 1 : loop.first;
  };
  for (std::size_t k = loop.first; k < loop.last; ++k)
    if (kind_between(s[k], s[next(k)], loop) !=
        kind_between(s[next(k)], s[next(next(k))], loop))
      return next(k);
  return loop.first;
}

}  // namespace

/// Neighbours on the loop are about as far apart along it as straight across;
/// a half circle between them makes it 1.6 times as far. What is much farther
/// has surface left out between, and so have two points on the axis.
bool neighbours(const SurfacePoint& a, const SurfacePoint& b,
                const SurfaceLoop& loop) {
  const double least = 1e-6 * loop.perimeter;
  if (loop.round && std::abs(a.at.x()) < least && std::abs(b.at.x()) < least)
    return false;
  double along = b.arc - a.arc;
  if (along < 0) along += loop.perimeter;
  return along <= 2 * (b.at - a.at).norm() + least;
}

std::vector<SurfaceLoop> surface_loops(const solver::Result& result,
                                       const PartResult& part) {
  std::vector<SurfaceLoop> loops;
  const auto& s = part.surface;
  const auto& outline = result.section.solids[part.solid].outline;
  for (std::size_t first = 0, k = 1; k <= s.size(); ++k) {
    if (k < s.size() && s[k].loop == s[first].loop) continue;
    SurfaceLoop loop{.first = first, .last = k, .loop = s[first].loop};
    loop.round = result.section.cut == mesh::Cut::axisymmetric;
    for (const mesh::Curve& c :
         outline.loops[static_cast<std::size_t>(loop.loop)])
      loop.perimeter += mesh::length(c);
    loop.closed = neighbours(s[k - 1], s[first], loop);
    loop.length = loop.closed ? loop.perimeter : s[k - 1].arc;
    loops.push_back(loop);
    first = k;
  }
  return loops;
}

std::vector<Stretch> stretches(const solver::Result& result,
                               const PartResult& part) {
  std::vector<Stretch> found;
  for (const SurfaceLoop& loop : surface_loops(result, part)) {
    const std::size_t n = loop.last - loop.first;
    const std::size_t start = change_of_kind(part, loop) - loop.first;
    std::vector<std::size_t> walk;
    for (std::size_t k = 0; k <= n; ++k)
      walk.push_back(loop.first + (start + k) % n);
    cut(part, loop, walk, found);
  }
  return found;
}

std::vector<Stretch> unrolled_stretches(const solver::Result& result,
                                        const PartResult& part) {
  std::vector<Stretch> found;
  for (const SurfaceLoop& loop : surface_loops(result, part)) {
    std::vector<std::size_t> walk;
    for (std::size_t k = loop.first; k < loop.last; ++k) walk.push_back(k);
    walk.push_back(loop.first);
    cut(part, loop, walk, found);
  }
  return found;
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

std::vector<PlaceOnPart> equal_current_points(const solver::Result& result,
                                              int count) {
  const auto current = [](const SurfacePoint& s) {
    return s.wetted ? std::max(0.0, s.weight * s.current_density) : 0.0;
  };
  double whole = 0;
  for (const PartResult& part : result.parts)
    for (const SurfacePoint& s : part.surface) whole += current(s);
  std::vector<PlaceOnPart> places;
  if (!(whole > 0)) return places;
  double sum = 0;
  for (std::size_t p = 0; p < result.parts.size(); ++p)
    for (std::size_t k = 0; k < result.parts[p].surface.size(); ++k) {
      sum += current(result.parts[p].surface[k]);
      const double wanted = (static_cast<double>(places.size()) + 0.5) / count;
      if (sum >= wanted * whole && places.size() < std::size_t(count))
        places.push_back({p, k});
    }
  return places;
}

double drawn_thickness_limit(const PartResult& part) {
  return 1.2 * part.thickness.value.max;
}

}  // namespace thinspot::viz
