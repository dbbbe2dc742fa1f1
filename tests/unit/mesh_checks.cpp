#include "mesh_checks.hpp"
#include "mesh/liquid.hpp"
#include "solver/element.hpp"

#include <Eigen/LU>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace thinspot::tests {

using namespace mesh;

namespace {

std::pair<int, int> ends(const Mesh& m, const Side& s) {
  return {m.triangles(s.edge, s.triangle),
          m.triangles((s.edge + 1) % 3, s.triangle)};
}

double off(const Mesh& m, const Section& s, const BoundaryEdge& e, int node,
           double t) {
  const Point there = point_at(curve_of(s, e.owner, e.loop, e.curve), t);
  return (m.nodes.col(e.nodes[static_cast<std::size_t>(node)]) - there).norm();
}

}  // namespace

int triangles_of(const Mesh& m) { return static_cast<int>(m.triangles.cols()); }

std::map<int, std::vector<Side>> sides_by_middle(const Mesh& m) {
  std::map<int, std::vector<Side>> sides;
  for (int t = 0; t < triangles_of(m); ++t)
    for (int k = 0; k < 3; ++k) sides[m.triangles(3 + k, t)].push_back({t, k});
  return sides;
}

std::set<int> corners_of(const Mesh& m) {
  std::set<int> corners;
  for (int t = 0; t < triangles_of(m); ++t)
    for (int k = 0; k < 3; ++k) corners.insert(m.triangles(k, t));
  return corners;
}

void check_conforming(const Mesh& m) {
  const auto sides = sides_by_middle(m);
  const auto corners = corners_of(m);
  std::set<std::pair<int, int>> edges;
  std::map<int, Side> lonely;
  bool twins = true, once = true, straight = true;
  for (const auto& [middle, beside] : sides) {
    const auto [a, b] = ends(m, beside[0]);
    once = once && edges.emplace(std::min(a, b), std::max(a, b)).second &&
           !corners.contains(middle);
    if (beside.size() == 1) {
      lonely.emplace(middle, beside[0]);
      continue;
    }
    twins =
        twins && beside.size() == 2 && ends(m, beside[1]) == std::pair(b, a);
    const Point chord = 0.5 * (m.nodes.col(a) + m.nodes.col(b));
    straight = straight && (m.nodes.col(middle) - chord).norm() <= kRounding;
  }
  CHECK(once);
  CHECK(twins);
  CHECK(straight);
  CHECK(corners.size() + sides.size() ==
        static_cast<std::size_t>(m.nodes.cols()));
  CHECK(lonely.size() == m.boundary.size());
  bool listed = true;
  for (const BoundaryEdge& e : m.boundary) {
    const auto found = lonely.find(e.nodes[2]);
    listed = listed && found != lonely.end() &&
             found->second.triangle == e.triangle &&
             ends(m, found->second) == std::pair(e.nodes[0], e.nodes[1]);
    if (found != lonely.end()) lonely.erase(found);
  }
  CHECK(listed);
}

void check_on_curves(const Mesh& m, const Section& s) {
  double worst = 0;
  for (const BoundaryEdge& e : m.boundary)
    worst = std::max({worst, off(m, s, e, 0, e.t_from), off(m, s, e, 1, e.t_to),
                      off(m, s, e, 2, 0.5 * (e.t_from + e.t_to))});
  CHECK(worst <= kRounding);
}

double mesh_area(const Mesh& m) {
  double area = 0;
  for (Eigen::Index t = 0; t < m.triangles.cols(); ++t)
    for (const auto& q : solver::degree_2_rule()) {
      Eigen::Matrix2d jacobian = Eigen::Matrix2d::Zero();
      const auto gradients = solver::shape_gradients(q.x, q.y);
      for (Eigen::Index k = 0; k < 6; ++k)
        jacobian += m.nodes.col(m.triangles(k, t)) * gradients.row(k);
      area += q.weight * jacobian.determinant();
    }
  return area;
}

double least_angle(const Mesh& m) {
  double least = std::numbers::pi;
  for (Eigen::Index t = 0; t < m.triangles.cols(); ++t)
    for (Eigen::Index k = 0; k < 3; ++k) {
      const Point at = m.nodes.col(m.triangles(k, t));
      const Point a = m.nodes.col(m.triangles((k + 1) % 3, t)) - at;
      const Point b = m.nodes.col(m.triangles((k + 2) % 3, t)) - at;
      least =
          std::min(least, std::atan2(a.x() * b.y() - a.y() * b.x(), a.dot(b)));
    }
  return least;
}

double boundary_length(const Mesh& m, int owner, bool masked) {
  double length = 0;
  for (const BoundaryEdge& e : m.boundary)
    if (e.owner == owner && e.masked == masked)
      for (const auto& q : solver::gauss_rule()) {
        const Eigen::Vector3d slopes = solver::edge_derivatives(q.t);
        Point tangent = Point::Zero();
        for (Eigen::Index k = 0; k < 3; ++k)
          tangent +=
              slopes(k) * m.nodes.col(e.nodes[static_cast<std::size_t>(k)]);
        length += q.weight * tangent.norm();
      }
  return length;
}

}  // namespace thinspot::tests
