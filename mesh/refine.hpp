#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"

#include <span>

namespace thinspot::mesh {

/// Newest-vertex bisection. Corners 0 and 1 of a triangle are the ends of its
/// first edge, the one that is halved before the others; corner 2 is its newest
/// vertex. Every edge of the marked triangles is halved, which makes four of
/// each, and beside them what a conforming mesh asks for and no more.
///
/// Nodes of the old mesh keep their numbers and, off the boundary, their
/// places; the children of a triangle stand in its place. Where the boundary is
/// halved, the new corner lies on the true curve, and so do middle nodes,
/// except where that would flatten or fold a triangle: there they lie on the
/// chord. Work and memory are linear in the triangles of both meshes.
///
/// @pre   check_mesh(mesh) finds nothing
/// @param section  the one that the mesh was made of
/// @param marked   indices of triangles; repeated ones count once, and with
///                 none the mesh comes back as it was
/// @throws std::out_of_range where a marked index is none of a triangle.
/// @throws NoResultError where the new nodes are too many to count in an int.
Mesh refined(const Mesh& mesh, const Section& section,
             std::span<const int> marked);

/// The same with every triangle marked: each becomes four.
Mesh refined(const Mesh& mesh, const Section& section);

/// Turns every triangle so that its longest edge, straight from corner to
/// corner, is its first. Asked for once, before a mesh is first refined: no
/// angle of straight triangles then ever falls below half of the mesh's least.
void longest_edge_first(Mesh& mesh);

}  // namespace thinspot::mesh
