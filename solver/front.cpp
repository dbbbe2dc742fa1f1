#include "solver/front.hpp"

#include "solver/laplace.hpp"
#include "solver/profile.hpp"

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using mesh::Point;

/// Cosine between the normals of two edges that meet in an edge of the part; a
/// rounded one has two elements a quarter at least, which differ by less at
/// their ends.
constexpr double kEdge = 0.97;
/// A wall that meets the surface under a sine below this holds it.
constexpr double kFlatWall = 0.2;

Point right_of(const Point& along) { return {along.y(), -along.x()}; }

/// A node along one unbroken run of edges. At the ends of edges the directions
/// before and behind it differ where the part has an edge.
struct RunNode {
  int node = 0;
  double arc = 0;  ///< from the run's start [m]
  Point in, out;   ///< unit tangents
  bool sharp = false;
};

using Run = std::vector<RunNode>;

class Front {
 public:
  Front(const mesh::Mesh& mesh, const Electrodes& electrodes,
        const Surface& surface)
      : mesh_(mesh), electrodes_(electrodes), surface_(surface) {}

  std::vector<Run> runs() const {
    std::vector<Run> all;
    for (const SurfaceLoop& loop : surface_.loops) {
      const std::size_t first = all.size();
      for (const SurfaceEdge& e : loop.edges) {
        if (all.size() == first || all.back().back().node != e.node[0])
          all.emplace_back();
        append(all.back(), e);
      }
      join_over_arc_0(all, first);
    }
    for (std::size_t k = 0; k < all.size(); ++k) begin_at_sharp(all[k]);
    return all;
  }

  /// Where the end of a run goes for a metre of thickness; nothing where it is
  /// held.
  Point at_end(const RunNode& end, bool last) const {
    const Point normal = right_of(last ? end.in : end.out);
    const int node = node_of(end.node);
    Point best = Point::Zero();
    for (const mesh::BoundaryEdge& e : mesh_.boundary) {
      if (e.nodes[0] != node && e.nodes[1] != node) continue;
      if (e.owner >= 0) {
        if (e.owner != own_solid() || e.masked) return Point::Zero();
        continue;
      }
      Point along = mesh_.nodes.col(e.nodes[1]) - mesh_.nodes.col(e.nodes[0]);
      along.normalize();
      if (along.dot(normal) < 0) along = -along;
      const double sine = along.dot(normal);
      if (sine > kFlatWall && (best.isZero() || sine > best.dot(normal)))
        best = along;
    }
    return best.isZero() ? best : Point(best / best.dot(normal));
  }

  int node_of(int node) const { return mesh_node(electrodes_, surface_, node); }

 private:
  int own_solid() const {
    return static_cast<int>(electrodes_.each[surface_.electrode].solid);
  }

  void append(Run& run, const SurfaceEdge& e) const {
    std::array<Point, 3> p;
    for (std::size_t k = 0; k < 3; ++k)
      p[k] = mesh_.nodes.col(node_of(e.node[k]));
    const Point begin = (4 * p[2] - 3 * p[0] - p[1]).normalized();
    const Point end = (3 * p[1] + p[0] - 4 * p[2]).normalized();
    const Point middle = (p[1] - p[0]).normalized();
    const double length = e.to - e.from;
    if (run.empty())
      run.push_back({e.node[0], 0, begin, begin});
    else
      run.back().out = begin;
    RunNode& start = run.back();
    start.sharp = right_of(start.in).dot(right_of(start.out)) < kEdge;
    const double arc = start.arc;
    run.push_back({e.node[2], arc + 0.5 * length, middle, middle});
    run.push_back({e.node[1], arc + length, end, end});
  }

  /// The last run of a loop may go on in its first.
  static void join_over_arc_0(std::vector<Run>& all, std::size_t first) {
    if (all.size() < first + 1) return;
    Run& last = all.back();
    if (last.back().node != all[first].front().node) return;
    if (all.size() == first + 1) {
      RunNode &a = last.front(), &b = last.back();
      a.in = b.in;
      b.out = a.out;
      a.sharp = b.sharp = a.in.dot(a.out) < kEdge;
      return;
    }
    Run head = std::move(all[first]);
    const double shift = last.back().arc;
    last.back().out = head.front().out;
    last.back().sharp = last.back().in.dot(last.back().out) < kEdge;
    for (std::size_t k = 1; k < head.size(); ++k) {
      head[k].arc += shift;
      last.push_back(head[k]);
    }
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(first));
  }

  /// A closed run begins and ends at a sharp edge, if it has one.
  static void begin_at_sharp(Run& run) {
    if (run.front().node != run.back().node || run.front().sharp) return;
    const auto edge = std::find_if(run.begin(), run.end(),
                                   [](const RunNode& n) { return n.sharp; });
    if (edge == run.end()) return;
    const double length = run.back().arc, start = edge->arc;
    Run turned(edge, run.end());
    turned.insert(turned.end(), run.begin() + 1, edge + 1);
    for (std::size_t k = 0; k < turned.size(); ++k) {
      turned[k].arc -= start;
      if (turned[k].arc < 0 || (k > 0 && turned[k].arc == 0))
        turned[k].arc += length;
    }
    run = std::move(turned);
  }

  const mesh::Mesh& mesh_;
  const Electrodes& electrodes_;
  const Surface& surface_;
};

/// Between two breaks of a run (its ends, sharp edges) nothing but the normal
/// moves a node, and what the breaks make it slide.
struct Break {
  std::size_t at;  ///< in the run
  Point move;      ///< of its node [m]
  bool held;
};

double fading(double distance, double reach) {
  return std::max(0.0, 1 - distance / reach);
}

}  // namespace

int mesh_node(const Electrodes& electrodes, const Surface& surface, int node) {
  const Electrode& e = electrodes.each[surface.electrode];
  return electrodes.nodes.mesh_node[static_cast<std::size_t>(
      e.rows[static_cast<std::size_t>(node)])];
}

void add_front(const mesh::Mesh& mesh, const Electrodes& electrodes,
               const Surface& surface, const Eigen::VectorXd& added,
               double reach, Eigen::Matrix2Xd& move) {
  const Front front(mesh, electrodes, surface);
  for (const Run& run : front.runs()) {
    const bool closed = run.front().node == run.back().node;
    // Both faces move by their own thickness where the edge goes so far.
    const auto on_normal = [&](const RunNode& n) -> Point {
      const Point a = right_of(n.in), b = right_of(n.out);
      return (a + b) / std::max(0.1, 1 + a.dot(b)) * added(n.node);
    };
    std::vector<Break> breaks;
    for (std::size_t k = 0; k < run.size(); ++k) {
      const bool end = k == 0 || k + 1 == run.size();
      if (run[k].sharp) {
        breaks.push_back({k, on_normal(run[k]), false});
      } else if (end && !closed) {
        const Point way = front.at_end(run[k], k > 0);
        breaks.push_back({k, way * added(run[k].node), way.isZero()});
      }
    }
    for (std::size_t k = 0; k < run.size(); ++k)
      move.col(front.node_of(run[k].node)) = on_normal(run[k]);
    for (std::size_t s = 0; s + 1 < breaks.size(); ++s) {
      const Break &a = breaks[s], &b = breaks[s + 1];
      const double length = run[b.at].arc - run[a.at].arc;
      const double within = std::min(reach, length);
      const double slide_a = a.move.dot(run[a.at].out),
                   slide_b = b.move.dot(run[b.at].in);
      for (std::size_t k = a.at + 1; k < b.at; ++k) {
        const RunNode& n = run[k];
        const double from_a = fading(n.arc - run[a.at].arc, within),
                     from_b = fading(run[b.at].arc - n.arc, within);
        const Point along = (n.in + n.out).normalized();
        auto to = move.col(front.node_of(n.node));
        to *= (a.held ? 1 - from_a : 1) * (b.held ? 1 - from_b : 1);
        to += (slide_a * from_a + slide_b * from_b) * along;
      }
    }
    for (const Break& b : breaks)
      move.col(front.node_of(run[b.at].node)) = b.move;
  }
}

Eigen::VectorXd averaged(const Surface& surface, const Eigen::VectorXd& values,
                         double window) {
  Eigen::VectorXd result = values;
  if (window <= 0) return result;
  for (const SurfaceLoop& loop : surface.loops) {
    const double half = std::min(0.5 * window, 0.499 * loop.length);
    const Profile profile(loop, values),
        wet(loop, Eigen::VectorXd::Ones(values.size()));
    for (const SurfaceEdge& e : loop.edges) {
      const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
      for (std::size_t k = 0; k < 3; ++k)
        result(e.node[k]) = profile.integral(arcs[k] - half, arcs[k] + half) /
                            wet.integral(arcs[k] - half, arcs[k] + half);
    }
  }
  return result;
}

void fade_at_held(const mesh::Mesh& mesh, const Electrodes& electrodes,
                  const Surface& surface, double reach,
                  Eigen::Matrix2Xd& move) {
  const Front front(mesh, electrodes, surface);
  for (const Run& run : front.runs()) {
    if (run.front().node == run.back().node) continue;
    const double length = run.back().arc;
    const bool first = front.at_end(run.front(), false).isZero(),
               last = front.at_end(run.back(), true).isZero();
    for (const RunNode& n : run) {
      double kept = 1;
      if (first) kept *= 1 - fading(n.arc, std::min(reach, length));
      if (last) kept *= 1 - fading(length - n.arc, std::min(reach, length));
      move.col(front.node_of(n.node)) *= kept;
    }
  }
}

Eigen::VectorXd weights_of(const mesh::Mesh& mesh, const Electrodes& electrodes,
                           const Surface& surface) {
  const Electrode& e = electrodes.each[surface.electrode];
  Eigen::VectorXd weights =
      Eigen::VectorXd::Zero(static_cast<Index>(e.rows.size()));
  for (const SurfaceLoop& loop : surface.loops)
    for (const SurfaceEdge& edge : loop.edges) {
      const mesh::BoundaryEdge& of = mesh.boundary[edge.boundary];
      const Eigen::Vector3d w = edge_mass(mesh, of).rowwise().sum();
      // The boundary runs the other way.
      weights(edge.node[0]) += w(1);
      weights(edge.node[1]) += w(0);
      weights(edge.node[2]) += w(2);
    }
  return weights;
}

}  // namespace thinspot::solver
