#include "solver/part_result.hpp"

#include "solver/bare.hpp"
#include "solver/place_words.hpp"
#include "solver/profile.hpp"
#include "solver/standing_out.hpp"

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

/// A surface point with its node of the coat, -1 where dry.
struct Pointed {
  SurfacePoint point;
  int node = -1;
};

/// What describe_part works on: the coat, where the part is drawn.
struct View {
  const mesh::Section& section;
  std::vector<Standing> steps;  ///< each solution once
  const Outline& outline;
  const Coat& coat;
  const Eigen::VectorXd density;  ///< in the last step
};

/// Points of the wetted edges, two an edge: its start and its middle.
void add_wetted_points(const View& v, std::size_t loop_index,
                       const Eigen::VectorXd& weight, PartResult& part,
                       std::vector<Pointed>& points) {
  const SurfaceLoop& loop = v.coat.surface.loops[loop_index];
  for (std::size_t k = 0; k < loop.edges.size(); ++k) {
    const SurfaceEdge& e = loop.edges[k];
    const bool joined =
        k + 1 < loop.edges.size() && loop.edges[k + 1].node[0] == e.node[1];
    const bool closes =
        k + 1 == loop.edges.size() && loop.edges[0].node[0] == e.node[1];
    const std::array<double, 3> arcs{e.from, e.to, 0.5 * (e.from + e.to)};
    for (std::size_t j : {0u, 2u, 1u}) {
      if (j == 1 && (joined || closes)) continue;
      const Curve& curve = curve_of(v.outline, loop.loop, e.curve);
      const double t = fraction_of(loop, v.outline, e.curve, arcs[j]);
      const auto node = static_cast<Index>(e.node[j]);
      SurfacePoint p;
      p.at = mesh::point_at(curve, t);
      p.normal = mesh::outward_normal(curve, t);
      p.loop = loop.loop;
      p.arc = wrapped(arcs[j], loop.length);
      p.face = face_index(part.faces, curve.face);
      p.judged = holds(loop.judged, p.arc, loop.length);
      p.weight = weight(node);
      p.current_density = v.density(node);
      p.thickness = v.coat.thickness(node);
      points.push_back({p, e.node[j]});
    }
  }
}

/// What no current reaches, listed and as points, so that a chart of the whole
/// loop knows of it.
void add_dry(const View& v, const SurfaceLoop& loop, PartResult& part,
             std::vector<Pointed>& points) {
  for (const DryStretch& dry : dry_stretches(v.outline, v.steps, loop)) {
    part.bare.push_back(
        {dry.face, wrapped(dry.where.from, loop.length),
         wrapped(dry.where.from, loop.length) + dry.where.to - dry.where.from,
         dry.why});
    const int steps = 20;
    // Inside the stretch: its ends are wetted points as well.
    for (int k = 0; k < steps; ++k) {
      const double arc =
          dry.where.from + (dry.where.to - dry.where.from) * (k + 0.5) / steps;
      const PlaceOnLoop place = place_at(loop, v.outline, arc);
      const Curve& curve = curve_of(v.outline, loop.loop, place.curve);
      SurfacePoint p;
      p.at = mesh::point_at(curve, place.t);
      p.normal = mesh::outward_normal(curve, place.t);
      p.loop = loop.loop;
      p.arc = wrapped(arc, loop.length);
      p.face = face_index(part.faces, curve.face);
      p.wetted = p.judged = false;
      points.push_back({p, -1});
    }
  }
}

/// Of the last step.
void add_face_currents(const Model& model, const Surface& surface,
                       const PartOutcome& outcome, PartResult& part) {
  const Electrodes& electrodes = model.response.electrodes();
  const Electrode& electrode = electrodes.each[surface.electrode];
  const Outline& outline = model.section.solids[electrode.solid].outline;
  const auto places = places_by_row(electrode);
  const Eigen::VectorXd& crossing = outcome.over_drawn_area.size() > 0
                                        ? outcome.over_drawn_area
                                        : outcome.current_density;
  for (const mesh::BoundaryEdge& e : model.mesh.boundary) {
    if (e.owner != static_cast<int>(electrode.solid) || e.masked) continue;
    FaceResult& face = part.faces[static_cast<std::size_t>(
        face_index(part.faces, curve_of(outline, e.loop, e.curve).face))];
    const Eigen::Vector3d weight =
        edge_mass(model.mesh, e).rowwise().sum() * model.scale.depth;
    for (std::size_t k = 0; k < 3; ++k) {
      const int row =
          electrodes.nodes.row[static_cast<std::size_t>(e.nodes[k])];
      face.current += weight(static_cast<Index>(k)) * crossing(places.at(row));
    }
  }
}

/// Sums over the edges of each face, so that shared nodes count where they
/// should.
void sum_faces(const View& v, const Case& c, const Certified& last,
               const Surface& surface, const PartOutcome& outcome,
               PartResult& part) {
  std::vector<std::vector<Extreme>> thickness(part.faces.size()),
      density(part.faces.size());
  std::vector<double> volume(part.faces.size(), 0), dense_area = volume;
  const double window = c.accuracy.averaging_length;
  for (std::size_t l = 0; l < v.coat.surface.loops.size(); ++l) {
    const SurfaceLoop& loop = v.coat.surface.loops[l];
    const Profile thick(loop, v.coat.thickness), dense(loop, v.density);
    for (std::size_t f = 0; f < part.faces.size(); ++f) {
      const Stretches face =
          stretches_of_faces(loop, v.outline, {part.faces[f].name});
      const Stretches open = common(face, loop.open, loop.length);
      for (const Extreme& e : thick.averages(open, window))
        thickness[f].push_back(e);
      for (const Extreme& e : dense.averages(open, window))
        density[f].push_back(e);
      if (!common(face, loop.judged, loop.length).empty())
        part.faces[f].judged = true;
    }
    for (std::size_t k = 0; k < loop.edges.size(); ++k) {
      const SurfaceEdge& e = loop.edges[k];
      const Eigen::Vector3d& weight = v.coat.weights[l][k];
      const auto f = static_cast<std::size_t>(
          face_index(part.faces, curve_of(v.outline, loop.loop, e.curve).face));
      part.faces[f].area += weight.sum();
      for (std::size_t j = 0; j < 3; ++j) {
        const double w = weight(static_cast<Index>(j));
        volume[f] += w * v.coat.thickness(e.node[j]);
        dense_area[f] += w * v.density(e.node[j]);
      }
    }
  }
  add_face_currents(last.model, surface, outcome, part);
  const auto spread = [](const std::vector<Extreme>& averages, double mean) {
    Spread s{mean, mean, mean};
    for (const Extreme& e : averages) {
      s.min = std::min(s.min, e.value);
      s.max = std::max(s.max, e.value);
    }
    return s;
  };
  for (std::size_t f = 0; f < part.faces.size(); ++f) {
    FaceResult& face = part.faces[f];
    const double area = face.area > 0 ? face.area : 1;
    // What crosses a surface that has moved is more than is dense on it.
    const bool moved = outcome.over_drawn_area.size() > 0;
    face.current_density =
        spread(density[f], (moved ? dense_area[f] : face.current) / area);
    face.thickness = spread(thickness[f], volume[f] / area);
  }
}

Spot make_spot(const View& v, const SurfaceLoop& loop, const Extreme& extreme) {
  const double arc = wrapped(extreme.arc, loop.length);
  const PlaceOnLoop place = place_at(loop, v.outline, arc);
  const Curve& curve = curve_of(v.outline, loop.loop, place.curve);
  Spot spot;
  spot.at = mesh::point_at(curve, place.t);
  spot.arc = arc;
  spot.face = curve.face;
  spot.where =
      place_in_words(v.section, v.outline, loop.loop, place.curve, place.t);
  spot.thickness = extreme.value;
  return spot;
}

/// Extremes of one sign over all loops, the most extreme first; at least one.
std::vector<Spot> find_spots(const View& v, const Case& c, double mean,
                             double sign) {
  const double prominence = kProminence * mean;
  std::vector<Spot> spots;
  const SurfaceLoop* loop_of_most = nullptr;
  Extreme most;
  double height = -std::numeric_limits<double>::infinity();
  for (const SurfaceLoop& loop : v.coat.surface.loops) {
    const Profile profile(loop, v.coat.thickness);
    for (const Stretch& s : loop.open) {
      const bool closed = s.to - s.from >= loop.length * (1 - 1e-9);
      const auto averages = profile.averages({s}, c.accuracy.averaging_length);
      for (const Extreme& e : standing_out(averages, sign, prominence, closed))
        spots.push_back(make_spot(v, loop, e));
      for (const Extreme& e : averages)
        if (sign * e.value > height) {
          height = sign * e.value;
          most = e;
          loop_of_most = &loop;
        }
    }
  }
  std::vector<double> heights;
  for (const Spot& s : spots) heights.push_back(sign * s.thickness);
  std::vector<Spot> sorted;
  for (const std::size_t k : from_largest(heights)) sorted.push_back(spots[k]);
  spots = std::move(sorted);
  // A part plated evenly has no spot that stands out; its extreme still is
  // the answer to "where is it thinnest".
  if (spots.empty() && loop_of_most)
    spots.push_back(make_spot(v, *loop_of_most, most));
  if (spots.size() > kMostSpots) spots.resize(kMostSpots);
  return spots;
}

constexpr double kAny = std::numeric_limits<double>::infinity();

std::optional<double> share_in_working_range(const Case& c,
                                             const PartResult& part) {
  if (!c.target.working_range) return std::nullopt;
  const auto [low, high] = *c.target.working_range;
  const double all = area_within(part.surface, -kAny, kAny);
  return all > 0 ? area_within(part.surface, low, high) / all : 0;
}

/// Where a part stands in each solution, by its key.
std::vector<Standing> standings(const Schedule& schedule,
                                const std::string& key) {
  std::vector<Standing> all;
  for (std::size_t k = 0; k < schedule.steps.size(); ++k) {
    const mesh::Section& there = schedule.steps[k].solved->model.section;
    const bool seen =
        std::any_of(all.begin(), all.end(),
                    [&](const Standing& s) { return s.section == &there; });
    if (seen) continue;
    const std::size_t solid = mesh::index_of(there, key);
    all.push_back({&there, solid, there.solids[solid].flipped});
  }
  return all;
}

}  // namespace

double area_within(const std::vector<SurfacePoint>& surface, double low,
                   double high) {
  double area = 0;
  for (const SurfacePoint& p : surface)
    if (p.current_density >= low && p.current_density <= high) area += p.weight;
  return area;
}

DescribedPart describe_part(const Schedule& schedule, const Case& c,
                            std::size_t index) {
  const Certified& last = *schedule.last().solved;
  const PartOutcome& outcome = last.outcome.parts[index];
  const mesh::Solid& solid =
      solid_of(last.model, last.model.surfaces[index]).spec;
  const Coat& coat = schedule.coats[index];
  const std::size_t place = mesh::index_of(schedule.drawn, solid.key);
  const View v{schedule.drawn, standings(schedule, solid.key),
               schedule.drawn.solids[place].outline, coat,
               coat.density.rightCols(1)};
  PartResult part;
  part.solid = last.model.response.electrodes()
                   .each[last.model.surfaces[index].electrode]
                   .solid;
  part.name = solid.name;
  part.area = coat.area;
  part.current = outcome.current;
  part.current_density.value = outcome.current_density_spread;
  part.thickness.value = schedule.spreads[index].thickness;
  const double volume = schedule.growth ? schedule.growth->volume[index]
                                        : part.thickness.value.mean * part.area;
  part.mass = volume * c.solution.metal.density;
  std::vector<Pointed> points;
  const Eigen::VectorXd weight = node_weights(coat);
  for (std::size_t l = 0; l < coat.surface.loops.size(); ++l) {
    add_wetted_points(v, l, weight, part, points);
    add_dry(v, coat.surface.loops[l], part, points);
  }
  std::stable_sort(
      points.begin(), points.end(), [](const Pointed& a, const Pointed& b) {
        return a.point.loop != b.point.loop ? a.point.loop < b.point.loop
                                            : a.point.arc < b.point.arc;
      });
  DescribedPart result;
  for (const Pointed& p : points) {
    part.surface.push_back(p.point);
    result.node.push_back(p.node);
  }
  sum_faces(v, c, last, last.model.surfaces[index], outcome, part);
  const double mean = part.thickness.value.mean;
  part.thin_spots = find_spots(v, c, mean, -1);
  part.heavy_spots = find_spots(v, c, mean, +1);
  part.share_in_working_range = share_in_working_range(c, part);
  result.part = std::move(part);
  return result;
}

}  // namespace thinspot::solver
