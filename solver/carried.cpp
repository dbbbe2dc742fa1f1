#include "solver/carried.hpp"

#include "solver/element.hpp"
#include "solver/front.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

using mesh::Point;

/// Beyond a piece's ends by this share of its curve is still on it.
constexpr double kSame = 1e-9;

struct Frame {
  Point normal, along;
};

Frame frame_at(const mesh::Curve& curve, double t) {
  const Point n = mesh::outward_normal(curve, t);
  return {n, Point(-n.y(), n.x())};
}

/// A place of the step's outline as drawn, and whether its curve is walked the
/// same way there.
mesh::Place drawn_place(const mesh::PlacedSolid& solid, int loop, int curve,
                        double t) {
  const mesh::Place place{loop, curve, t};
  return solid.flipped ? mesh::flipped(place, solid.outline) : place;
}

/// Fractions of its curve at an edge's start, end, middle.
std::array<double, 3> fractions(const SurfaceLoop& loop,
                                const mesh::Outline& outline,
                                const SurfaceEdge& e) {
  const double from = fraction_of(loop, outline, e.curve, e.from),
               to = fraction_of(loop, outline, e.curve, e.to);
  return {from, to, 0.5 * (from + to)};
}

}  // namespace

void Carried::take(const mesh::PlacedSolid& solid, const Electrodes& electrodes,
                   const Surface& surface, const Eigen::Matrix2Xd& moves) {
  std::map<std::pair<int, int>, std::vector<Piece>> taken;
  const double sign = solid.flipped ? -1 : 1;
  for (const SurfaceLoop& loop : surface.loops)
    for (const SurfaceEdge& e : loop.edges) {
      const mesh::Curve& curve =
          mesh::curve_of(solid.outline, loop.loop, e.curve);
      const auto t = fractions(loop, solid.outline, e);
      Piece piece{};
      for (std::size_t k = 0; k < 3; ++k) {
        const Frame f = frame_at(curve, std::clamp(t[k], 0.0, 1.0));
        const Point u = moves.col(mesh_node(electrodes, surface, e.node[k]));
        piece.move.col(static_cast<Eigen::Index>(k)) =
            Point(u.dot(f.normal), sign * u.dot(f.along));
      }
      const mesh::Place a = drawn_place(solid, loop.loop, e.curve, t[0]),
                        b = drawn_place(solid, loop.loop, e.curve, t[1]);
      piece.from = a.t;
      piece.to = b.t;
      if (solid.flipped) {
        std::swap(piece.from, piece.to);
        piece.move.col(0).swap(piece.move.col(1));
      }
      taken[{a.loop, a.curve}].push_back(piece);
    }
  for (auto& [place, pieces] : taken) pieces_[place] = std::move(pieces);
}

void Carried::give(const mesh::PlacedSolid& solid, const Electrodes& electrodes,
                   const Surface& surface, Eigen::Matrix2Xd& moves) const {
  const double sign = solid.flipped ? -1 : 1;
  for (const SurfaceLoop& loop : surface.loops)
    for (const SurfaceEdge& e : loop.edges) {
      const mesh::Curve& curve =
          mesh::curve_of(solid.outline, loop.loop, e.curve);
      const auto t = fractions(loop, solid.outline, e);
      for (std::size_t k = 0; k < 3; ++k) {
        const int node = mesh_node(electrodes, surface, e.node[k]);
        const mesh::Place place = drawn_place(solid, loop.loop, e.curve, t[k]);
        const auto found = pieces_.find({place.loop, place.curve});
        if (found == pieces_.end()) continue;
        for (const Piece& p : found->second) {
          if (place.t < p.from - kSame || place.t > p.to + kSame) continue;
          const Eigen::Vector2d move =
              p.move * edge_functions((place.t - p.from) / (p.to - p.from));
          const Frame f = frame_at(curve, std::clamp(t[k], 0.0, 1.0));
          moves.col(node) = move(0) * f.normal + sign * move(1) * f.along;
          break;
        }
      }
    }
}

}  // namespace thinspot::solver
