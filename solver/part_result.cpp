#include "solver/part_result.hpp"

#include "solver/bare.hpp"
#include "solver/profile.hpp"
#include "solver/spots.hpp"

#include <algorithm>
#include <limits>

namespace thinspot::solver {

namespace {

using Eigen::Index;
using mesh::Curve;
using mesh::curve_of;
using mesh::Outline;
using mesh::Point;

/// A spot must stand out by this share of the mean to be named.
constexpr double kProminence = 0.03;
constexpr std::size_t kMostSpots = 5;

int face_index(std::vector<FaceResult>& faces, const std::string& name) {
  for (std::size_t k = 0; k < faces.size(); ++k)
    if (faces[k].name == name) return static_cast<int>(k);
  FaceResult face;
  face.name = name;
  face.judged = false;
  faces.push_back(face);
  return static_cast<int>(faces.size()) - 1;
}

/// Points of the wetted edges, two an edge: its start and its middle.
void add_wetted_points(const Outline& outline, const SurfaceLoop& loop,
                       const Electrode& electrode, const PartOutcome& outcome,
                       double depth, PartResult& part) {
  for (std::size_t k = 0; k < loop.edges.size(); ++k) {
    const SurfaceEdge& e = loop.edges[k];
    const bool joined =
        k + 1 < loop.edges.size() && loop.edges[k + 1].node[0] == e.node[1];
    const bool closes =
        k + 1 == loop.edges.size() && loop.edges[0].node[0] == e.node[1];
    const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
    for (std::size_t j : {0u, 2u, 1u}) {
      if (j == 1 && (joined || closes)) continue;
      const Curve& curve = curve_of(outline, loop.loop, e.curve);
      const double t = fraction_of(loop, outline, e.curve, arcs[j]);
      const auto row = static_cast<Index>(e.node[j]);
      SurfacePoint p;
      p.at = mesh::point_at(curve, t);
      p.normal = mesh::outward_normal(curve, t);
      p.loop = loop.loop;
      p.arc = wrapped(arcs[j], loop.length);
      p.face = face_index(part.faces, curve.face);
      p.judged = holds(loop.judged, p.arc, loop.length);
      p.weight = electrode.weight(row) * depth;
      p.current_density = outcome.current_density(row);
      p.thickness = outcome.thickness(row);
      part.surface.push_back(p);
    }
  }
}

/// What no current reaches, listed and as points, so that a chart of the whole
/// loop knows of it.
void add_dry(const mesh::Section& section, const SurfaceLoop& loop,
             PartResult& part) {
  const Outline& outline = section.solids[part.solid].outline;
  for (const DryStretch& dry : dry_stretches(section, part.solid, loop)) {
    part.bare.push_back(
        {dry.face, wrapped(dry.where.from, loop.length),
         wrapped(dry.where.from, loop.length) + dry.where.to - dry.where.from,
         dry.why});
    const int steps = 20;
    // Inside the stretch: its ends are wetted points as well.
    for (int k = 0; k < steps; ++k) {
      const double arc =
          dry.where.from + (dry.where.to - dry.where.from) * (k + 0.5) / steps;
      const PlaceOnLoop place = place_at(loop, outline, arc);
      const Curve& curve = curve_of(outline, loop.loop, place.curve);
      SurfacePoint p;
      p.at = mesh::point_at(curve, place.t);
      p.normal = mesh::outward_normal(curve, place.t);
      p.loop = loop.loop;
      p.arc = wrapped(arc, loop.length);
      p.face = face_index(part.faces, curve.face);
      p.wetted = p.judged = false;
      part.surface.push_back(p);
    }
  }
}

/// Sums over the edges of each face, so that shared nodes count where they
/// should.
void sum_faces(const Model& model, const Case& c, const Surface& surface,
               const PartOutcome& outcome, PartResult& part) {
  const Outline& outline = solid_of(model, surface).outline;
  const double growth =
      outcome.current_density_spread.mean > 0
          ? outcome.thickness_spread.mean / outcome.current_density_spread.mean
          : 0;
  std::vector<std::vector<Extreme>> averages(part.faces.size());
  for (const SurfaceLoop& loop : surface.loops) {
    const Profile profile(loop, outcome.current_density);
    for (std::size_t f = 0; f < part.faces.size(); ++f) {
      const Stretches face =
          stretches_of_faces(loop, outline, {part.faces[f].name});
      const Stretches open = common(face, loop.open, loop.length);
      const auto some = profile.averages(open, c.accuracy.averaging_length);
      averages[f].insert(averages[f].end(), some.begin(), some.end());
      if (!common(face, loop.judged, loop.length).empty())
        part.faces[f].judged = true;
    }
  }
  const Electrodes& electrodes = model.response.electrodes();
  const Electrode& electrode = electrodes.each[surface.electrode];
  const auto places = places_by_row(electrode);
  for (const mesh::BoundaryEdge& e : model.mesh.boundary) {
    if (e.owner != static_cast<int>(electrode.solid) || e.masked) continue;
    const Curve& curve = curve_of(outline, e.loop, e.curve);
    FaceResult& face = part.faces[static_cast<std::size_t>(
        face_index(part.faces, curve.face))];
    const Eigen::Vector3d weight =
        edge_mass(model.mesh, e).rowwise().sum() * model.scale.depth;
    face.area += weight.sum();
    for (std::size_t k = 0; k < 3; ++k) {
      const int row =
          electrodes.nodes.row[static_cast<std::size_t>(e.nodes[k])];
      face.current += weight(static_cast<Index>(k)) *
                      outcome.current_density(places.at(row));
    }
  }
  for (std::size_t f = 0; f < part.faces.size(); ++f) {
    FaceResult& face = part.faces[f];
    const double mean = face.area > 0 ? face.current / face.area : 0;
    Spread& i = face.current_density;
    i = {mean, mean, mean};
    for (const Extreme& e : averages[f]) {
      i.min = std::min(i.min, e.value);
      i.max = std::max(i.max, e.value);
    }
    face.thickness = {growth * i.min, growth * i.mean, growth * i.max};
  }
}

Spot make_spot(const Model& model, const Outline& outline,
               const SurfaceLoop& loop, const Extreme& extreme) {
  const double arc = wrapped(extreme.arc, loop.length);
  const PlaceOnLoop place = place_at(loop, outline, arc);
  const Curve& curve = curve_of(outline, loop.loop, place.curve);
  Spot spot;
  spot.at = mesh::point_at(curve, place.t);
  spot.arc = arc;
  spot.face = curve.face;
  spot.where =
      place_in_words(model.section, outline, loop.loop, place.curve, place.t);
  spot.thickness = extreme.value;
  return spot;
}

/// Extremes of one sign over all loops, the most extreme first; at least one.
std::vector<Spot> find_spots(const Model& model, const Case& c,
                             const Surface& surface, const PartOutcome& outcome,
                             double sign) {
  const Outline& outline = solid_of(model, surface).outline;
  const double prominence = kProminence * outcome.thickness_spread.mean;
  std::vector<Spot> spots;
  const SurfaceLoop* loop_of_most = nullptr;
  Extreme most;
  double height = -std::numeric_limits<double>::infinity();
  for (const SurfaceLoop& loop : surface.loops) {
    const Profile profile(loop, outcome.thickness);
    for (const Stretch& s : loop.open) {
      const bool closed = s.to - s.from >= loop.length * (1 - 1e-9);
      const auto averages = profile.averages({s}, c.accuracy.averaging_length);
      for (const Extreme& e : standing_out(averages, sign, prominence, closed))
        spots.push_back(make_spot(model, outline, loop, e));
      for (const Extreme& e : averages)
        if (sign * e.value > height) {
          height = sign * e.value;
          most = e;
          loop_of_most = &loop;
        }
    }
  }
  std::stable_sort(spots.begin(), spots.end(),
                   [sign](const Spot& a, const Spot& b) {
                     return sign * a.thickness > sign * b.thickness;
                   });
  // A part plated evenly has no spot that stands out; its extreme still is
  // the answer to "where is it thinnest".
  if (spots.empty() && loop_of_most)
    spots.push_back(make_spot(model, outline, *loop_of_most, most));
  if (spots.size() > kMostSpots) spots.resize(kMostSpots);
  return spots;
}

std::optional<double> share_in_range(const Case& c, const PartResult& part) {
  if (!c.target.working_range) return std::nullopt;
  const auto [low, high] = *c.target.working_range;
  double inside = 0, all = 0;
  for (const SurfacePoint& p : part.surface) {
    all += p.weight;
    if (p.current_density >= low && p.current_density <= high)
      inside += p.weight;
  }
  return all > 0 ? inside / all : 0;
}

}  // namespace

PartResult describe_part(const Model& model, const Case& c,
                         const Surface& surface, const PartOutcome& outcome) {
  const Electrode& electrode =
      model.response.electrodes().each[surface.electrode];
  const Outline& outline = solid_of(model, surface).outline;
  PartResult part;
  part.solid = electrode.solid;
  part.name = model.section.solids[electrode.solid].spec.name;
  part.area = electrode.measure * model.scale.depth;
  part.current = outcome.current;
  part.current_density.value = outcome.current_density_spread;
  part.thickness.value = outcome.thickness_spread;
  part.mass =
      outcome.thickness_spread.mean * part.area * c.solution.metal.density;
  for (const SurfaceLoop& loop : surface.loops) {
    add_wetted_points(outline, loop, electrode, outcome, model.scale.depth,
                      part);
    add_dry(model.section, loop, part);
  }
  std::stable_sort(part.surface.begin(), part.surface.end(),
                   [](const SurfacePoint& a, const SurfacePoint& b) {
                     return a.loop != b.loop ? a.loop < b.loop : a.arc < b.arc;
                   });
  sum_faces(model, c, surface, outcome, part);
  part.thin_spots = find_spots(model, c, surface, outcome, -1);
  part.heavy_spots = find_spots(model, c, surface, outcome, +1);
  part.share_in_working_range = share_in_range(c, part);
  return part;
}

}  // namespace thinspot::solver
