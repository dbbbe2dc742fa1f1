#pragma once

#include "solver/case.hpp"
#include "tests/solids.hpp"

#include <string>

namespace thinspot::tests {

/// Copper as in the IUPAC table; density of the wrought metal.
solver::Metal copper();
solver::Metal nickel();

/// A plan view with full-height plates against its left and right wall, part
/// left and anode right: one-dimensional between them. Lengths [m].
solver::Case channel(double gap, double height, double conductivity,
                     double cathode_resistance, double anode_resistance,
                     double voltage);

/// A rod in an open tube, seen end on, one volt between them: one-dimensional
/// in the radius. Lengths [m].
/// @param r1, r2  of the rod, and of the tube's inside
solver::Case rod_in_tube(double r1, double r2, double conductivity,
                         double cathode_resistance, double anode_resistance);

/// Adds an anode's law for the solid with that index.
void add_anode(solver::Case& c, std::size_t solid, double resistance);

/// A brass token of 30 mm before one copper sheet, as in the shipped case.
solver::Case token();

}  // namespace thinspot::tests
