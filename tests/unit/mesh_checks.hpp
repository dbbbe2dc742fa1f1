#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"

#include <map>
#include <set>
#include <utility>
#include <vector>

namespace thinspot::tests {

/// Coordinates reach 0.1 m, so that one rounding is 1e-17 m; a point of an arc
/// takes some dozens of them.
inline constexpr double kRounding = 1e-15;

/// A triangle and which of its edges.
struct Side {
  int triangle, edge;
};

int triangles_of(const mesh::Mesh& m);
std::map<int, std::vector<Side>> sides_by_middle(const mesh::Mesh& m);
std::set<int> corners_of(const mesh::Mesh& m);

/// Every edge has one middle of its own and one or two triangles, which see it
/// from either side; those with one are the boundary, each listed once.
void check_conforming(const mesh::Mesh& m);

/// Ends and middles of the boundary lie where their curve has the fraction of
/// its length that the edge names.
void check_on_curves(const mesh::Mesh& m, const mesh::Section& s);

double mesh_area(const mesh::Mesh& m);    ///< of the plane section [m2]
double least_angle(const mesh::Mesh& m);  ///< between straight edges [rad]

/// Length of the curved boundary that this owner and `masked` name [m].
double boundary_length(const mesh::Mesh& m, int owner, bool masked);

}  // namespace thinspot::tests
