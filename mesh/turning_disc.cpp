#include "mesh/turning_disc.hpp"

#include <Eigen/Geometry>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace thinspot::mesh {

namespace {

/// A circle that comes nearer to what it keeps clear of needs more waves than
/// meshes at every angle cost.
constexpr double kLeastRatio = 1.05;
/// A quadratic follows a wave to a thousandth with this many edges a period,
/// and where a wave is that short it is small.
constexpr int kEdgesAWave = 4;

/// Largest distance from a point to a curve [m].
double farthest(const Curve& c, const Point& from) {
  double most = std::max((c.from - from).norm(), (c.to - from).norm());
  if (!is_arc(c)) return most;
  const Point middle = centre(c), away = middle - from;
  const double r = radius(c), apart = away.norm();
  const Point tip = apart > 1e-9 * r ? Point(middle + r / apart * away)
                                     : Point(middle + Point(r, 0));
  if (nearest(c, tip).distance < 1e-9 * r) most = apart + r;
  return most;
}

double reach_of(const PlacedSolid& part) {
  double reach = 0;
  for (const Loop& loop : part.outline.loops)
    for (const Curve& c : loop)
      reach = std::max(reach, farthest(c, axis_of(part.spec)));
  return reach;
}

/// Four quarters, counter-clockwise.
Outline circle_about(const Point& centre, double radius) {
  const double quarter = std::tan(std::acos(-1.0) / 8);
  const Point corner[] = {{radius, 0}, {0, radius}, {-radius, 0}, {0, -radius}};
  Loop loop;
  for (std::size_t k = 0; k < 4; ++k)
    loop.push_back({centre + corner[k], centre + corner[(k + 1) % 4], quarter,
                    "disc", false});
  return {{loop}};
}

/// How far a part may reach, turning, before it comes upon something [m].
double free_radius(const Section& section, std::size_t part,
                   const std::vector<double>& reach) {
  const Point centre = axis_of(section.solids[part].spec);
  double free = nearest(section.liquid_bounds, centre).distance;
  for (std::size_t s = 0; s < section.solids.size(); ++s) {
    if (s == part) continue;
    const PlacedSolid& other = section.solids[s];
    if (other.spec.role == Role::part) {
      // Each has its share of the way between the two.
      const double apart = (axis_of(other.spec) - centre).norm();
      free = std::min(free, apart * reach[part] / (reach[part] + reach[s]));
    } else {
      free = std::min(free, nearest(other.outline, centre).distance);
      if (contains(other.outline, centre)) return 0;
    }
  }
  return contains(section.liquid_bounds, centre) ? free : 0;
}

/// Region of the liquid that a solid's curves bound.
int region_of(const Liquid& liquid, int owner) {
  for (const LiquidCurve& c : liquid.curves)
    if (c.owner == owner) return c.region;
  return -1;
}

}  // namespace

std::vector<TurningDisc> free_discs(const Section& section) {
  std::vector<TurningDisc> discs;
  if (section.cut == Cut::axisymmetric) return discs;
  std::vector<double> reach;
  for (const PlacedSolid& s : section.solids)
    reach.push_back(s.spec.role == Role::part ? reach_of(s) : 0);
  for (std::size_t s = 0; s < section.solids.size(); ++s) {
    const Solid& part = section.solids[s].spec;
    if (part.role != Role::part) continue;
    const double free = free_radius(section, s, reach);
    if (!(free > kLeastRatio * reach[s])) return {};
    TurningDisc disc{
        s, axis_of(part), std::sqrt(reach[s] * free), reach[s], free, {}, 0};
    disc.circle = circle_about(disc.centre, disc.radius);
    discs.push_back(std::move(disc));
  }
  return discs;
}

void set_radius(TurningDisc& disc, double radius, int waves) {
  disc.radius = radius;
  disc.circle = circle_about(disc.centre, radius);
  disc.edge =
      std::min({2 * std::numbers::pi * radius / (kEdgesAWave * (waves + 1)),
                0.7 * (radius - disc.reach), 0.7 * (disc.free - radius)});
}

void split_at_discs(const Section& section, Liquid& liquid) {
  int region = 0, vertex = 0;
  for (const LiquidCurve& c : liquid.curves) {
    region = std::max(region, c.region);
    vertex = std::max({vertex, c.piece.start_vertex, c.piece.end_vertex});
  }
  for (std::size_t d = 0; d < section.discs.size(); ++d) {
    const TurningDisc& disc = section.discs[d];
    const int owner = static_cast<int>(disc.solid);
    const int outside = region_of(liquid, owner);
    const int inside = ++region;
    for (LiquidCurve& c : liquid.curves)
      if (c.owner == owner) c.region = inside;
    const Loop& circle = disc.circle.loops.front();
    const auto count = static_cast<int>(circle.size());
    std::vector<LiquidCurve> arcs;
    for (int side : {inside, outside}) {
      const int first = vertex + 1;
      vertex += count;
      for (int k = 0; k < count; ++k) {
        LiquidCurve arc{side, kDisc, static_cast<int>(d), k, {}};
        arc.piece.curve = circle[static_cast<std::size_t>(k)];
        arc.piece.size = disc.edge;
        arc.piece.owner = kDisc;
        arc.piece.start_vertex = first + k;
        arc.piece.end_vertex = first + (k + 1) % count;
        arcs.push_back(std::move(arc));
      }
    }
    // A region's outer bounds come first: the circle before the part.
    liquid.curves.insert(liquid.curves.begin(), arcs.begin(),
                         arcs.begin() + count);
    liquid.curves.insert(liquid.curves.end(), arcs.begin() + count, arcs.end());
  }
}

std::vector<int> disc_of_triangles(const Mesh& mesh,
                                   const std::vector<TurningDisc>& discs) {
  std::vector<int> of(static_cast<std::size_t>(mesh.triangles.cols()), -1);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t) {
    const Point middle = (mesh.nodes.col(mesh.triangles(0, t)) +
                          mesh.nodes.col(mesh.triangles(1, t)) +
                          mesh.nodes.col(mesh.triangles(2, t))) /
                         3;
    for (std::size_t d = 0; d < discs.size(); ++d)
      if ((middle - discs[d].centre).norm() < discs[d].radius)
        of[static_cast<std::size_t>(t)] = static_cast<int>(d);
  }
  return of;
}

Mesh turned(const Mesh& mesh, const std::vector<TurningDisc>& discs,
            double angle) {
  Mesh result = mesh;
  const std::vector<int> disc = disc_of_triangles(mesh, discs);
  std::vector<int> of_node(static_cast<std::size_t>(mesh.nodes.cols()), -1);
  for (Eigen::Index t = 0; t < mesh.triangles.cols(); ++t)
    for (Eigen::Index k = 0; k < 6; ++k)
      of_node[static_cast<std::size_t>(mesh.triangles(k, t))] =
          disc[static_cast<std::size_t>(t)];
  const Eigen::Matrix2d turn = Eigen::Rotation2Dd(angle).toRotationMatrix();
  const auto move = [&](const Point& p, std::size_t d) -> Point {
    return discs[d].centre + turn * (p - discs[d].centre);
  };
  for (std::size_t k = 0; k < of_node.size(); ++k)
    if (of_node[k] >= 0) {
      const auto node = static_cast<Eigen::Index>(k);
      result.nodes.col(node) =
          move(mesh.nodes.col(node), static_cast<std::size_t>(of_node[k]));
    }
  for (SharpCorner& corner : result.sharp)
    for (std::size_t d = 0; d < discs.size(); ++d)
      if (static_cast<int>(discs[d].solid) == corner.owner)
        corner.at = move(corner.at, d);
  return result;
}

}  // namespace thinspot::mesh
