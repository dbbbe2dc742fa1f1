#pragma once

#include "mesh/liquid.hpp"
#include "mesh/mesh.hpp"
#include "mesh/section.hpp"

#include <vector>

namespace thinspot::mesh {

/// The free circle of each part: about the point that it turns about, halfway
/// (by ratio) between its reach and whatever else comes next, another part's
/// reach included. Empty where one of the parts has none, because something
/// stands in its way or the section is not planar.
std::vector<TurningDisc> free_discs(const Section& section);

/// Gives a disc another circle, with edges short enough for its waves.
/// @param waves  that are to be told apart on it
/// @pre the circle lies between reach and free
void set_radius(TurningDisc& disc, double radius, int waves);

/// Parts the liquid at the section's discs: inside and outside then have nodes
/// and edges of their own along the circle, owned by kDisc.
void split_at_discs(const Section& section, Liquid& liquid);

/// Disc that each triangle lies in; -1: outside of all.
std::vector<int> disc_of_triangles(const Mesh& mesh,
                                   const std::vector<TurningDisc>& discs);

/// The mesh with all that lies in the discs turned about their centres.
/// @param angle  counter-clockwise [rad]
Mesh turned(const Mesh& mesh, const std::vector<TurningDisc>& discs,
            double angle);

}  // namespace thinspot::mesh
