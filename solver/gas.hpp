#pragma once

namespace thinspot::solver {

struct Result;

/// What bubbles off in all steps, as dry gas at 25 degC and 1 atm.
struct Gas {
  double hydrogen = 0;  ///< at all cathodes [m3]
  /// At anodes that do not dissolve, were all of their current to make it
  /// [m3]. Where there is chloride, chlorine takes the place of oxygen in a
  /// share that nothing here tells: each is what there is at most.
  double oxygen = 0, chlorine = 0;
};

/// Room that one mole of gas takes [m3/mol]: R T / p at 298.15 K, 101325 Pa.
inline constexpr double kMolarVolume = 8.314462618 * 298.15 / 101325;

/// Gas that a charge makes [mol].
/// @param charge     [C]
/// @param electrons  for one molecule: hydrogen 2, oxygen 4, chlorine 2
double gas_made(double charge, int electrons);

/// @param amount  [mol]
/// @returns as dry gas at 25 degC and 1 atm; ideal [m3]
double gas_volume(double amount);

/// From the currents of each step and the efficiency of the solution; of
/// several layers the sum. The shares of inert anodes are those of the last
/// step.
Gas gas_of(const Result& result);

}  // namespace thinspot::solver
