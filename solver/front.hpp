#pragma once

#include "mesh/mesh.hpp"
#include "solver/electrodes.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

/// Where the nodes of a part's surface go when metal is laid on it: along the
/// normal; at an edge between two faces so far that both faces move by their
/// own thickness, and at a wall, the liquid's surface or the axis along it.
/// What such a node moves along its faces the nodes beside it follow, less and
/// less up to the distance `reach`, so that triangles keep their shape. Towards
/// lacquer and other solids, which stay, the move falls to nothing over that
/// distance.
/// @param mesh   as it stands now
/// @param added  thickness at the electrode's rows [m]
/// @param reach  [m]
/// @param move   2 x nodes of the mesh; set where the surface has nodes [m]
void add_front(const mesh::Mesh& mesh, const Electrodes& electrodes,
               const Surface& surface, const Eigen::VectorXd& added,
               double reach, Eigen::Matrix2Xd& move);

/// Averages along the surface, at its nodes, over what is wetted of a window as
/// long as this. With no polarization to even them out, bumps as short as the
/// deposit is thick grow by themselves, those of the mesh first.
Eigen::VectorXd averaged(const Surface& surface, const Eigen::VectorXd& values,
                         double window);

/// Lets a move of the surface fall to nothing towards the lacquer and the
/// solids that its ends meet.
void fade_at_held(const mesh::Mesh& mesh, const Electrodes& electrodes,
                  const Surface& surface, double reach, Eigen::Matrix2Xd& move);

/// The mesh node of a surface's node.
int mesh_node(const Electrodes& electrodes, const Surface& surface, int node);

/// Length or area that stands for each of the surface's nodes on the mesh as it
/// stands now, as in Electrode::weight [m planar, m2 axisymmetric].
Eigen::VectorXd weights_of(const mesh::Mesh& mesh, const Electrodes& electrodes,
                           const Surface& surface);

}  // namespace thinspot::solver
