#pragma once

#include "solver/deposit.hpp"
#include "tests/solids.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace thinspot::tests {

/// A case with its model and the currents in it.
struct Solved {
  solver::Case used;
  solver::Model model;
  solver::Outcome outcome;
};

Solved solved(const solver::Case& c);

/// Current out of the liquid through one solid [A].
double current_of(const Solved& s, std::size_t solid);

/// Mean current density of a part's surface from the place nearest to one
/// point counter-clockwise to that nearest to another [A/m2].
/// @param part  in the order of Model::surfaces
double mean_between(const Solved& s, const mesh::Point& from,
                    const mesh::Point& to, std::size_t part = 0);

/// A solid drawn where it stands, by its corners counter-clockwise [m].
mesh::Solid drawn(mesh::Role role, const std::string& name,
                  const std::vector<mesh::Point>& corners);

/// The same from any outline, wherever that lies.
mesh::Solid drawn(mesh::Role role, const std::string& name,
                  const mesh::Outline& outline);

/// A planar case of depth 1 m in a plan view of a box, one volt, copper, fixed
/// potentials. Lengths [m].
solver::Case plan_box(double width, double height, double conductivity);

}  // namespace thinspot::tests
