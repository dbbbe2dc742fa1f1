#include "solver/coat.hpp"

#include "solver/efficiency.hpp"
#include "solver/extremes.hpp"
#include "solver/laplace.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using mesh::Outline;

/// Ends of edges nearer than this share of their curve are one.
constexpr double kSame = 1e-9;

/// Arcs of a loop in one step and as drawn: shifted, as the lowest point is
/// another, and of a flipped one counted backwards.
class ArcMap {
 public:
  ArcMap(const SurfaceLoop& drawn, const Outline& outline,
         const SurfaceLoop& in_step, bool flipped)
      : sign_(flipped ? -1 : 1) {
    const auto& curves = outline.loops[static_cast<std::size_t>(drawn.loop)];
    const double same = flipped
                            ? drawn.curve_start.back() + length(curves.back())
                            : drawn.curve_start.front();
    shift_ = same - sign_ * in_step.curve_start.front();
  }
  double drawn(double arc) const { return sign_ * arc + shift_; }
  double in_step(double arc) const { return sign_ * (arc - shift_); }
  bool flipped() const { return sign_ < 0; }

 private:
  double sign_, shift_;
};

Stretches drawn(const Stretches& set, const ArcMap& map, double length) {
  Stretches pieces;
  for (const Stretch& s : set) {
    const double a = map.drawn(s.from), b = map.drawn(s.to);
    const double from = wrapped(std::min(a, b), length);
    pieces.push_back({from, from + std::abs(b - a)});
  }
  return pieces;
}

/// Curves of a loop as a step's own tank has them, on those of the coat's: one
/// and the same but for where masks cut them, which may be elsewhere in the
/// tank of another layer. Both begin at the same point of the material.
class CurveMap {
 public:
  /// @param step, coat  lengths of the curves, in the sense of the coat's
  CurveMap(const std::vector<double>& step, const std::vector<double>& coat)
      : step_(step), coat_(coat), alike_(step.size() == coat.size()) {
    for (std::size_t k = 0; alike_ && k < step.size(); ++k)
      alike_ = std::abs(step[k] - coat[k]) <= 1e-6 * coat[k];
  }

  bool alike() const { return alike_; }

  /// Calls visit(curve, from, to) for every curve of the coat's that meets a
  /// stretch of one of the step's; fractions may lie beyond its ends.
  template <class Visit>
  void spread(std::size_t curve, double from, double to, Visit visit) const {
    double before = 0;
    for (std::size_t k = 0; k < curve; ++k) before += step_[k];
    const double a = before + from * step_[curve];
    const double b = before + to * step_[curve];
    double start = 0;
    for (std::size_t k = 0; k < coat_.size(); start += coat_[k++]) {
      const double p = (a - start) / coat_[k], q = (b - start) / coat_[k];
      if (q > kSame && p < 1 - kSame) visit(k, p, q);
    }
  }

 private:
  std::vector<double> step_, coat_;
  bool alike_;
};

std::vector<double> lengths_of(const mesh::Loop& loop) {
  std::vector<double> lengths;
  for (const mesh::Curve& c : loop) lengths.push_back(mesh::length(c));
  return lengths;
}

/// A step's edge on one curve as drawn, by fractions of the curve; beyond 0
/// and 1 where the coat's curve is cut shorter than the step's.
struct Piece {
  double from, to;
  Index step;
  double start, middle, end;  ///< current density
  double measure;             ///< of the mesh's edge over that of its curve

  double at(double t) const {
    const double s = (t - from) / (to - from);
    return start * (1 - s) * (1 - 2 * s) + 4 * middle * s * (1 - s) +
           end * s * (2 * s - 1);
  }
};

/// Integrals of an edge's functions along its curve, times 2 pi r about an
/// axis, by Simpson's rule: exact for quadratics times the radius on straight
/// edges.
Eigen::Vector3d true_weights(const Outline& outline, const SurfaceLoop& loop,
                             const SurfaceEdge& e, bool axisymmetric) {
  const mesh::Curve& curve = mesh::curve_of(outline, loop.loop, e.curve);
  const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
  const std::array<double, 3> share{1. / 6, 1. / 6, 4. / 6};
  Eigen::Vector3d w;
  for (std::size_t k = 0; k < 3; ++k) {
    const mesh::Point p =
        mesh::point_at(curve, fraction_of(loop, outline, e.curve, arcs[k]));
    w(static_cast<Index>(k)) =
        share[k] * (e.to - e.from) *
        (axisymmetric ? 2 * std::numbers::pi * p.x() : 1);
  }
  return w;
}

class Layer {
 public:
  Layer(const Outline& outline, mesh::Cut cut, double depth,
        const std::vector<StepOnPart>& steps)
      : outline_(outline), cut_(cut), depth_(depth), steps_(steps) {
    coat_.growth.resize(static_cast<Index>(steps.size()));
    for (std::size_t k = 0; k < steps.size(); ++k)
      coat_.growth(static_cast<Index>(k)) = steps[k].growth;
    for (std::size_t l = 0; l < outline.loops.size(); ++l) add_loop(l);
    coat_.density.resize(static_cast<Index>(nodes_.size()),
                         static_cast<Index>(steps.size()));
    for (std::size_t n = 0; n < nodes_.size(); ++n)
      coat_.density.row(static_cast<Index>(n)) = nodes_[n].transpose();
    coat_.deposit.resizeLike(coat_.density);
    for (std::size_t k = 0; k < steps.size(); ++k) {
      const auto col = static_cast<Index>(k);
      coat_.deposit.col(col) =
          steps[k].growth *
          depositing(*steps[k].solution, coat_.density.col(col));
    }
    coat_.thickness = coat_.deposit.rowwise().sum();
  }

  Coat take() { return std::move(coat_); }

 private:
  struct Edge {
    SurfaceEdge edge;
    std::array<VectorXd, 3> values;  ///< from, to, middle
    double measure = 0;              ///< as in Piece, mean of all steps
  };

  void add_loop(std::size_t l) {
    SurfaceLoop loop = loop_of(outline_, l);
    std::vector<std::vector<Piece>> by_curve(outline_.loops[l].size());
    Stretches open, judged;
    for (std::size_t k = 0; k < steps_.size(); ++k)
      for (const SurfaceLoop& there : steps_[k].surface->loops) {
        if (there.loop != loop.loop) continue;
        const ArcMap map(loop, outline_, there, steps_[k].solid->flipped);
        for (const Stretch& s : drawn(there.open, map, loop.length))
          open.push_back(s);
        for (const Stretch& s : drawn(there.judged, map, loop.length))
          judged.push_back(s);
        add_pieces(there, static_cast<Index>(k), by_curve);
      }
    std::vector<Edge> edges;
    for (std::size_t c = 0; c < by_curve.size(); ++c)
      add_edges(loop, static_cast<int>(c), by_curve[c], edges);
    if (edges.empty()) return;
    std::sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) {
      return a.edge.from < b.edge.from;
    });
    number(edges, loop.length);
    coat_.weights.emplace_back();
    for (const Edge& e : edges) {
      loop.edges.push_back(e.edge);
      coat_.weights.back().push_back(
          e.measure * (axisymmetric() ? 1 : depth_) *
          true_weights(outline_, loop, e.edge, axisymmetric()));
      coat_.area += coat_.weights.back().back().sum();
    }
    loop.open = make_set(open, loop.length);
    loop.judged = make_set(judged, loop.length);
    coat_.surface.loops.push_back(std::move(loop));
  }

  void add_pieces(const SurfaceLoop& there, Index step,
                  std::vector<std::vector<Piece>>& by_curve) const {
    const StepOnPart& s = steps_[static_cast<std::size_t>(step)];
    const VectorXd& density = *s.density;
    const auto l = static_cast<std::size_t>(there.loop);
    std::vector<double> own = lengths_of(s.solid->outline.loops[l]);
    if (s.solid->flipped) std::reverse(own.begin(), own.end());
    const CurveMap map(own, lengths_of(outline_.loops[l]));
    for (const SurfaceEdge& e : there.edges) {
      double from = fraction_of(there, s.solid->outline, e.curve, e.from);
      double to = fraction_of(there, s.solid->outline, e.curve, e.to);
      double start = density(e.node[0]), end = density(e.node[1]);
      auto curve = static_cast<std::size_t>(e.curve);
      if (s.solid->flipped) {
        curve = own.size() - 1 - curve;
        from = std::exchange(to, 1 - from);
        from = 1 - from;
        std::swap(start, end);
      }
      const mesh::BoundaryEdge& edge = s.mesh->boundary[e.boundary];
      const double measure =
          edge_mass(*s.mesh, edge).sum() / true_measure(s, there, e);
      const auto add = [&](std::size_t on, double a, double b) {
        by_curve[on].push_back(
            {a, b, step, start, density(e.node[2]), end, measure});
      };
      if (map.alike())
        add(curve, from, to);
      else
        map.spread(curve, from, to, add);
    }
  }

  void add_edges(const SurfaceLoop& loop, int curve,
                 const std::vector<Piece>& pieces,
                 std::vector<Edge>& edges) const {
    std::vector<double> ends;
    for (const Piece& p : pieces) {
      ends.push_back(p.from < -kSame ? 0 : p.from);
      ends.push_back(p.to > 1 + kSame ? 1 : p.to);
    }
    std::sort(ends.begin(), ends.end());
    std::vector<double> places;
    for (double t : ends)
      if (places.empty() || t - places.back() > kSame) places.push_back(t);
    const double start = loop.curve_start[static_cast<std::size_t>(curve)];
    const double size =
        mesh::length(mesh::curve_of(outline_, loop.loop, curve));
    for (std::size_t k = 0; k + 1 < places.size(); ++k) {
      const double from = places[k], to = places[k + 1];
      Edge edge{{start + size * from, start + size * to, curve, {}, 0}, {}, 0};
      for (VectorXd& v : edge.values)
        v = VectorXd::Zero(static_cast<Index>(steps_.size()));
      int wet = 0;
      for (const Piece& p : pieces) {
        if (p.from > from + kSame || p.to < to - kSame) continue;
        ++wet;
        edge.measure += p.measure;
        edge.values[0](p.step) = p.at(from);
        edge.values[1](p.step) = p.at(to);
        edge.values[2](p.step) = p.at(0.5 * (from + to));
      }
      if (wet == 0) continue;
      edge.measure /= wet;
      if (edge.edge.to <= 0) {
        edge.edge.from += loop.length;
        edge.edge.to += loop.length;
      }
      edges.push_back(std::move(edge));
    }
  }

  int new_node(const VectorXd& values) {
    nodes_.push_back(values);
    return static_cast<int>(nodes_.size()) - 1;
  }

  static bool alike(const VectorXd& a, const VectorXd& b) {
    return (a - b).cwiseAbs().maxCoeff() <=
           1e-9 * std::max(a.cwiseAbs().maxCoeff(), b.cwiseAbs().maxCoeff());
  }

  /// Edges that go on from each other without a jump share their node.
  void number(std::vector<Edge>& edges, double length) {
    const auto meet = [&](const Edge& a, const Edge& b, double turn) {
      return std::abs(b.edge.from + turn - a.edge.to) < kSame * length &&
             alike(a.values[1], b.values[0]);
    };
    for (std::size_t k = 0; k < edges.size(); ++k) {
      Edge& e = edges[k];
      const bool goes_on = k > 0 && meet(edges[k - 1], e, 0);
      e.edge.node[0] =
          goes_on ? edges[k - 1].edge.node[1] : new_node(e.values[0]);
      e.edge.node[2] = new_node(e.values[2]);
      const bool closes =
          k + 1 == edges.size() && k > 0 && meet(e, edges.front(), length);
      e.edge.node[1] =
          closes ? edges.front().edge.node[0] : new_node(e.values[1]);
    }
  }

  bool axisymmetric() const { return cut_ == mesh::Cut::axisymmetric; }

  double true_measure(const StepOnPart& step, const SurfaceLoop& loop,
                      const SurfaceEdge& e) const {
    return true_weights(step.solid->outline, loop, e, axisymmetric()).sum();
  }

  const Outline& outline_;
  mesh::Cut cut_;
  double depth_;
  const std::vector<StepOnPart>& steps_;
  std::vector<VectorXd> nodes_;
  Coat coat_;
};

}  // namespace

VectorXd Coat::after(Index steps) const {
  return deposit.leftCols(steps).rowwise().sum();
}

Coat lay_down(const Outline& drawn, mesh::Cut cut, double depth,
              const std::vector<StepOnPart>& steps) {
  return Layer(drawn, cut, depth, steps).take();
}

Eigen::VectorXd node_weights(const Coat& coat) {
  Eigen::VectorXd weight = Eigen::VectorXd::Zero(coat.thickness.size());
  for (std::size_t l = 0; l < coat.surface.loops.size(); ++l)
    for (std::size_t k = 0; k < coat.weights[l].size(); ++k)
      for (std::size_t j = 0; j < 3; ++j)
        weight(coat.surface.loops[l].edges[k].node[j]) +=
            coat.weights[l][k](static_cast<Index>(j));
  return weight;
}

double volume_under(const Coat& coat, const VectorXd& thickness) {
  double volume = 0;
  for (std::size_t l = 0; l < coat.weights.size(); ++l)
    for (std::size_t k = 0; k < coat.weights[l].size(); ++k)
      for (std::size_t j = 0; j < 3; ++j)
        volume += coat.weights[l][k](static_cast<Index>(j)) *
                  thickness(coat.surface.loops[l].edges[k].node[j]);
  return volume;
}

CoatSpread spread_of(const Coat& coat, const VectorXd& thickness, double volume,
                     double window) {
  const double mean = volume / coat.area;
  const Extremes e = extremes_over(coat.surface, thickness, window, mean);
  return {e.spread, e.least, e.largest, e.least_judged};
}

Extreme window_in_step(const Extreme& window, const Coat& coat,
                       const Outline& drawn, const StepOnPart& step) {
  const SurfaceLoop& loop = coat.surface.loops[window.of_loop];
  for (std::size_t l = 0; l < step.surface->loops.size(); ++l) {
    const SurfaceLoop& there = step.surface->loops[l];
    if (there.loop != loop.loop) continue;
    const ArcMap map(loop, drawn, there, step.solid->flipped);
    const double a = map.in_step(window.from), b = map.in_step(window.to);
    const double from = wrapped(std::min(a, b), loop.length);
    const double to = from + std::abs(b - a);
    return {0.5 * (from + to), 0, from, to, l};
  }
  return {};
}

}  // namespace thinspot::solver
