#pragma once

#include "solver/cell_estimate.hpp"

#include <vector>

namespace thinspot::solver {

/// What the surfaces take: a voltage that does not change with the current,
/// and a resistance.
struct Surfaces {
  double voltage = 0;     ///< [V]
  double resistance = 0;  ///< over the whole current [ohm]
};

/// Adds what a law takes over an area, weighted.
void add(Surfaces& sum, const Polarization& p, double area, double weight);

/// Fills in what each rectifier should show, and the whole from it. The
/// cathode's polarization is taken at the mean over all of it.
/// @param ways    conductance of the liquid from each anode [1/ohm]
/// @param widest  how many times too much or too little the liquid's
///                resistance may be
void estimate_rectifiers(CellEstimate& e, const Case& c,
                         const WettedSection& wetted, const Areas& areas,
                         double depth, const std::vector<double>& ways,
                         double widest);

}  // namespace thinspot::solver
