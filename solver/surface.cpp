#include "solver/surface.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::solver {

namespace {

using mesh::Curve;
using mesh::Loop;
using mesh::Outline;
using mesh::Point;

/// Arc, counted from the loop's first curve, of its lowest point; of a level
/// stretch the middle. A loop cut at the axis begins where it leaves it.
double lowest_arc(const Loop& loop) {
  double lowest = 0, height = 0, arc = 0;
  bool first = true;
  double along = 0;
  for (const Curve& c : loop) {
    along += mesh::length(c);
    if (c.face == "axis") return along;
  }
  const double tie = 1e-9 * mesh::perimeter({{loop}});
  for (const Curve& c : loop) {
    const double size = mesh::length(c);
    const bool level =
        !mesh::is_arc(c) && std::abs(c.from.y() - c.to.y()) < tie;
    std::vector<double> candidates{0, level ? 0.5 : 1};
    if (mesh::is_arc(c))
      candidates.push_back(
          mesh::nearest(c, mesh::centre(c) - Point(0, mesh::radius(c))).t);
    for (double t : candidates) {
      const double y = mesh::point_at(c, t).y();
      const bool better =
          first || y < height - tie || (level && t == 0.5 && y < height + tie);
      if (!better) continue;
      first = false;
      height = y;
      lowest = arc + t * size;
    }
    arc += size;
  }
  return lowest;
}

}  // namespace

SurfaceLoop loop_of(const Outline& outline, std::size_t index) {
  SurfaceLoop result;
  const Loop& loop = outline.loops[index];
  result.loop = static_cast<int>(index);
  const double origin = lowest_arc(loop);
  double arc = -origin;
  for (const Curve& c : loop) {
    result.curve_start.push_back(arc);
    arc += mesh::length(c);
    result.length += mesh::length(c);
  }
  // A start so far back that the whole curve lies before arc 0 goes round.
  for (std::size_t k = 0; k < loop.size(); ++k)
    if (result.curve_start[k] + mesh::length(loop[k]) <= 1e-12 * result.length)
      result.curve_start[k] += result.length;
  return result;
}

Stretches wetted(const SurfaceLoop& s) {
  // Neighbouring edges share a node, not its rounding: joined a little longer
  // than they are, then cut back.
  const double touch = 1e-9 * s.length;
  Stretches pieces;
  for (const SurfaceEdge& e : s.edges) pieces.push_back({e.from, e.to + touch});
  Stretches set = make_set(pieces, s.length);
  for (Stretch& p : set)
    if (p.to - p.from < s.length) p.to -= touch;
  return set;
}

double highest_arc(const SurfaceLoop& s, const Outline& outline) {
  const Outline over = mesh::moved(outline, std::numbers::pi, {0, 0});
  const double arc = lowest_arc(over.loops[static_cast<std::size_t>(s.loop)]);
  return std::fmod(arc + s.curve_start[0] + s.length, s.length);
}

Stretches stretches_of_faces(const SurfaceLoop& s, const Outline& outline,
                             const std::vector<std::string>& faces) {
  const Loop& loop = outline.loops[static_cast<std::size_t>(s.loop)];
  Stretches pieces;
  for (std::size_t k = 0; k < loop.size(); ++k)
    if (std::find(faces.begin(), faces.end(), loop[k].face) != faces.end())
      pieces.push_back(
          {s.curve_start[k], s.curve_start[k] + mesh::length(loop[k])});
  return make_set(pieces, s.length);
}

double arc_of(const SurfaceLoop& s, const Outline& outline, int curve,
              double t) {
  const Loop& loop = outline.loops[static_cast<std::size_t>(s.loop)];
  const auto k = static_cast<std::size_t>(curve);
  return wrapped(s.curve_start[k] + t * mesh::length(loop[k]), s.length);
}

double fraction_of(const SurfaceLoop& s, const Outline& outline, int curve,
                   double arc) {
  const double size = mesh::length(mesh::curve_of(outline, s.loop, curve));
  const double t =
      (arc - s.curve_start[static_cast<std::size_t>(curve)]) / size;
  // The curve that holds arc 0 starts before it.
  return t > 1 + 1e-6 ? t - s.length / size : t;
}

PlaceOnLoop place_at(const SurfaceLoop& s, const Outline& outline, double arc) {
  const Loop& loop = outline.loops[static_cast<std::size_t>(s.loop)];
  for (std::size_t k = 0; k < loop.size(); ++k) {
    const double size = mesh::length(loop[k]);
    for (double a : {arc, arc - s.length, arc + s.length})
      if (a >= s.curve_start[k] && a <= s.curve_start[k] + size)
        return {static_cast<int>(k), (a - s.curve_start[k]) / size};
  }
  return {0, 0};
}

Surface unroll(const mesh::Mesh& mesh, const mesh::Section& section,
               const Electrodes& electrodes, std::size_t electrode_index) {
  const Electrode& electrode = electrodes.each[electrode_index];
  const Outline& outline = section.solids[electrode.solid].outline;
  const auto places = places_by_row(electrode);

  std::vector<SurfaceLoop> loops;
  for (std::size_t k = 0; k < outline.loops.size(); ++k)
    loops.push_back(loop_of(outline, k));
  for (std::size_t b = 0; b < mesh.boundary.size(); ++b) {
    const mesh::BoundaryEdge& e = mesh.boundary[b];
    if (e.owner != static_cast<int>(electrode.solid) || e.masked) continue;
    SurfaceLoop& s = loops[static_cast<std::size_t>(e.loop)];
    const Curve& curve = mesh::curve_of(outline, e.loop, e.curve);
    const double start = s.curve_start[static_cast<std::size_t>(e.curve)];
    const double size = mesh::length(curve);
    // The liquid's boundary runs against the outline.
    SurfaceEdge edge{
        start + size * e.t_to, start + size * e.t_from, e.curve, {}, b};
    const std::array<int, 3> turned{e.nodes[1], e.nodes[0], e.nodes[2]};
    for (std::size_t k = 0; k < 3; ++k)
      edge.node[k] =
          places.at(electrodes.nodes.row[static_cast<std::size_t>(turned[k])]);
    if (edge.to <= 0) {
      edge.from += s.length;
      edge.to += s.length;
    }
    s.edges.push_back(edge);
  }
  Surface surface;
  surface.electrode = electrode_index;
  for (SurfaceLoop& s : loops) {
    if (s.edges.empty()) continue;
    std::sort(s.edges.begin(), s.edges.end(),
              [](const SurfaceEdge& a, const SurfaceEdge& b) {
                return a.from < b.from;
              });
    s.open = wetted(s);
    surface.loops.push_back(std::move(s));
  }
  return surface;
}

}  // namespace thinspot::solver
