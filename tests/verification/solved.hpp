#pragma once

#include "solver/outcome.hpp"
#include "table.hpp"
#include "tests/solids.hpp"

#include <cstddef>
#include <functional>
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

/// The case as the program solves it: its mesh refined until the program's own
/// estimate keeps the tolerance.
Solved certified(const solver::Case& c);

/// The same case on its mesh with every triangle made into four.
Solved refined(const Solved& s);

/// The case on its first mesh, refined as often as it takes to have so many
/// nodes.
solver::Model model_of(const solver::Case& c, Eigen::Index least_nodes);

/// The case on its first mesh, and on that refined again and again.
std::vector<Solved> family(const solver::Case& c, int times);

/// log2 of how much smaller the last error is than the one before.
double order_of(const std::vector<double>& errors);

/// Observed on a family, for any error of one of its members.
/// @param expected  by theory
template <class Error>
Order order_on(const std::vector<Solved>& family, double expected,
               Error error) {
  std::vector<double> errors;
  for (const Solved& s : family) errors.push_back(error(s));
  return {Order::Kind::measured, order_of(errors), expected};
}

/// The same without an exact value, for a figure of one of its members: its
/// changes from mesh to mesh fall as its errors do.
template <class Value>
Order order_of_changes(const std::vector<Solved>& family, double expected,
                       Value value) {
  std::vector<double> changes;
  for (std::size_t k = 1; k < family.size(); ++k)
    changes.push_back(value(family[k]) - value(family[k - 1]));
  return {Order::Kind::measured, order_of(changes), expected};
}

/// A figure with what the mesh may have made of it, by the program's estimate.
struct Figure {
  double value = 0;
  double bar = 0;
};

/// Records a figure with its own bar against its exact value.
void record(const std::string& name, const std::string& source,
            const std::string& quantity, double exact, const Figure& found,
            const Order& order = {});

/// The figures of a working point, with their bars.
struct Figures {
  Figure resistance;           ///< of the whole cell [ohm]
  Figure current;              ///< of the whole cell [A]
  Figure mean;                 ///< current density of the first part [A/m2]
  std::vector<Figure> probes;  ///< averages around them [A/m2]
  std::vector<Figure> shares;  ///< the same over the mean
};
Figures figures_of(const Solved& s);

/// Current of the whole cell [A].
double total_current(const Solved& s);

/// Root mean square, along the first part's surface, of how far the current
/// density is from its exact value at a place [A/m2].
double density_error(const Solved& s,
                     const std::function<double(const mesh::Point&)>& exact);

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
