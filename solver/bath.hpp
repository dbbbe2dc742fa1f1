#pragma once

#include "solver/case.hpp"

namespace thinspot::solver {

// What plating takes out of a solution and what an anode gives back, by
// Faraday's law. Charges in coulombs, masses in kilograms.

/// Metal in the solution [kg].
double metal_in(const Metal& metal, double concentration, double volume);

/// That a charge deposits or dissolves at that efficiency [kg].
Quantity metal_moved(const Metal& metal, double charge,
                     const Quantity& efficiency);

/// Charge that moves so much metal [C].
double charge_for(const Metal& metal, double mass, const Quantity& efficiency);

/// Where nothing gives metal back: share of the metal left after so many runs.
/// Below 0 there is none.
double share_left(double metal, double taken_by_run, int runs);

/// Whole runs until so little is left, not counting the one that goes below.
int runs_down_to(double share, double metal, double taken_by_run);

/// Share of the metal at which to top up. Common practice, no source.
inline constexpr double kTopUpAt = 0.8;

/// Share of a soluble anode that can be used before it falls apart or is too
/// small. Common practice, no source.
inline constexpr double kUsableAnode = 0.7;

/// Of a soluble anode of that mass at that current [s], all of the current
/// dissolving metal.
double anode_life(const Metal& metal, double mass, double current);

/// A metal dissolved into an acid by current, as one makes its salt.
struct Dissolving {
  Quantity mass;      ///< of the metal [kg]
  double charge = 0;  ///< [C]
  Quantity acid;      ///< that it takes, in moles of hydrogen ions [mol]
  Quantity hydrogen;  ///< set free at the other electrode [mol]
};

/// @param efficiency  share of the charge that dissolves metal
Dissolving dissolved(const Metal& metal, double current, double time,
                     const Quantity& efficiency);

}  // namespace thinspot::solver
