#pragma once

#include "mesh/section.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

namespace thinspot::mesh {

/// Owners of boundary edges that no solid owns.
inline constexpr int kWall = -1;
inline constexpr int kSurface = -2;
inline constexpr int kAxis = -3;
/// The circle of a TurningDisc, from inside or outside; its number stands in
/// place of the loop.
inline constexpr int kDisc = -4;

/// One P2 edge of the liquid's boundary.
struct BoundaryEdge {
  std::array<int, 3> nodes{};  ///< from, to, middle; liquid on the left
  int triangle = 0;
  int owner = kWall;    ///< index into Section::solids, or one of the above
  int loop = 0;         ///< of the owner's outline (solids only)
  int curve = 0;        ///< of that loop
  double t_from = 0;    ///< fraction along that curve at nodes[0]
  double t_to = 0;      ///< and at nodes[1]; smaller than t_from, as the solid
                        ///< is on the other hand of the liquid
  bool masked = false;  ///< under stop-off lacquer
};

/// A corner of the liquid on bare metal of a part at which the ideal current
/// density, without polarization, has no bound: near it, it goes with the
/// distance to the power `exponent`.
struct SharpCorner {
  Point at = Point::Zero();
  double angle = 0;     ///< inside the liquid [rad]
  double exponent = 0;  ///< below 0
  int owner = 0;        ///< the part: index into Section::solids
};

/// P2 triangles over the liquid. Plain arrays, nothing of Gmsh in them.
struct Mesh {
  Cut cut = Cut::side;
  Eigen::Matrix2Xd nodes;  ///< [m]
  /// Corners counter-clockwise, then the nodes in the middle of the edges
  /// 0-1, 1-2, 2-0.
  Eigen::Matrix<int, 6, Eigen::Dynamic> triangles;
  std::vector<BoundaryEdge> boundary;
  /// Regions of liquid left out because no current can flow in them.
  std::vector<std::string> notes;
  std::vector<SharpCorner> sharp;
};

/// Checks that every triangle has a positive Jacobian at all six nodes, every
/// index is in range, every boundary edge belongs to one triangle, and those on
/// a curve of a solid run the same way.
/// @throws NoResultError naming the first offending triangle.
void check_mesh(const Mesh& mesh);

}  // namespace thinspot::mesh
