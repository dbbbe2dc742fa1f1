#include "viz/liquid_borders.hpp"

#include "viz/chains.hpp"

#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace thinspot::viz {

namespace {

using Eigen::Vector2d;

/// Pieces that a curved edge is drawn in.
constexpr int kPieces = 4;

/// A place to a billionth of a metre; what lies as near as that is one.
using Place = std::pair<long long, long long>;
Place place_of(const Vector2d& p) {
  return {std::llround(p.x() * 1e6), std::llround(p.y() * 1e6)};
}

/// Ends and middle of an edge, as nodes.
struct Edge {
  int from, to, middle;
};

std::vector<Edge> edges_without_neighbour(const LiquidData& liquid) {
  std::map<int, int> sides;
  std::vector<Edge> all;
  for (const auto& t : liquid.triangles.colwise())
    for (int k = 0; k < 3; ++k) {
      all.push_back({t(k), t((k + 1) % 3), t(k + 3)});
      ++sides[t(k + 3)];
    }
  std::erase_if(all, [&](const Edge& e) { return sides.at(e.middle) > 1; });
  return all;
}

/// The point of a quadratic edge at a fraction of its way.
Vector2d on_edge(const LiquidData& liquid, const Edge& e, double t) {
  return (1 - t) * (1 - 2 * t) * liquid.nodes.col(e.from) +
         4 * t * (1 - t) * liquid.nodes.col(e.middle) +
         t * (2 * t - 1) * liquid.nodes.col(e.to);
}

struct Extent {
  Vector2d low, high;
};

Extent extent_of(const Border& b) {
  Extent e{b.points.front(), b.points.front()};
  for (const Vector2d& p : b.points)
    e = {e.low.cwiseMin(p), e.high.cwiseMax(p)};
  return e;
}

/// Whether two lines are the two sides of one circle at which the mesh is
/// parted: they need not have the same nodes.
bool is_seam(const Border& a, const Border& b) {
  if (a.area * b.area >= 0) return false;
  const Extent x = extent_of(a), y = extent_of(b);
  const double near = 0.01 * (x.high - x.low).norm();
  return (x.low - y.low).norm() < near && (x.high - y.high).norm() < near &&
         std::abs(a.area + b.area) < 0.02 * std::abs(a.area);
}

void take_out_seams(std::vector<Border>& borders) {
  std::vector<bool> seam(borders.size());
  for (std::size_t a = 0; a < borders.size(); ++a)
    for (std::size_t b = 0; b < borders.size(); ++b)
      if (is_seam(borders[a], borders[b])) seam[a] = true;
  std::size_t k = 0;
  std::erase_if(borders, [&](const Border&) { return seam[k++]; });
}

}  // namespace

double signed_area(const std::vector<Vector2d>& loop) {
  double twice = 0;
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const Vector2d& a = loop[k];
    const Vector2d& b = loop[(k + 1) % loop.size()];
    twice += a.x() * b.y() - b.x() * a.y();
  }
  return twice / 2;
}

std::vector<Border> borders_of(const LiquidData& liquid,
                               const SurfaceData& part) {
  std::set<Place> surface;
  for (const auto& p : part.points.colwise()) surface.insert(place_of(p));
  std::map<std::pair<int, int>, Edge> by_ends;
  std::vector<std::array<int, 2>> ends;
  for (const Edge& e : edges_without_neighbour(liquid)) {
    by_ends.insert({{e.from, e.to}, e});
    ends.push_back({e.from, e.to});
  }
  std::vector<Border> borders;
  for (const std::vector<int>& loop : closed_loops(ends)) {
    Border& border = borders.emplace_back();
    for (std::size_t k = 0; k < loop.size(); ++k) {
      const Edge& e = by_ends.at({loop[k], loop[(k + 1) % loop.size()]});
      const bool at_part =
          surface.contains(place_of(liquid.nodes.col(e.middle)));
      for (int piece = 0; piece < kPieces; ++piece) {
        border.points.push_back(on_edge(liquid, e, double(piece) / kPieces));
        border.at_part.push_back(at_part);
      }
    }
    border.area = signed_area(border.points);
  }
  take_out_seams(borders);
  return borders;
}

}  // namespace thinspot::viz
