#pragma once

#include "mesh/mesh.hpp"
#include "mesh/section.hpp"

#include <string>
#include <vector>

namespace thinspot::tests {

/// A section and the generator's mesh of it, the tolerance asked for being
/// loose, so that it is coarse.
struct Meshed {
  std::string name;
  mesh::Section section;
  mesh::Mesh mesh;
};

/// A coin with rounded edges, lacquered on one face, before a sheet.
Meshed meshed_coin();
/// The same coin turned about the axis, between two round sheets.
Meshed meshed_turned_coin();
/// Two rods in a round vessel: all of the boundary is large arcs.
Meshed meshed_rods();
/// Plates in a box: all of the boundary is straight.
Meshed meshed_plates();

std::vector<Meshed> meshed_samples();

/// A section whose liquid is the inside of this loop, without solids, and a
/// mesh of the one triangle whose corners are the ends of its three curves.
Meshed one_triangle(const mesh::Loop& loop);

}  // namespace thinspot::tests
