#pragma once

#include "solver/interval.hpp"

#include <optional>

namespace thinspot::solver {

/// A resistor in series with the cell, for an adapter of fixed voltage that
/// limits no current.
struct SeriesResistor {
  double exact = 0;       ///< that gives the wanted current [ohm]
  double resistance = 0;  ///< the next value above in the E12 series [ohm]
  double current = 0;     ///< that flows with that one [A]
  Interval current_band;  ///< from the band of the cell's voltage [A]
  double heat = 0;        ///< in it [W]
  double rating = 0;      ///< to ask for: twice that [W]
  /// Where the cell is shorted out the resistor alone holds the current [A].
  double short_circuit = 0;
};

/// The next value of the E12 series (IEC 60063, from memory) that is not below
/// [ohm].
/// @pre resistance > 0
double next_e12(double resistance);

/// The cell is taken as its voltage at the wanted current, with a straight
/// line through the origin to either side.
/// @param adapter  its voltage [V]
/// @param current  wanted [A]
/// @param cell     expected voltage of the cell at that current [V]
/// @param band     of that voltage [V]
/// @returns nullopt where the adapter has no more volts than the cell takes.
std::optional<SeriesResistor> series_resistor(double adapter, double current,
                                              double cell,
                                              const Interval& band);

/// Copper wire for a current.
struct WireGauge {
  double area = 0;  ///< the next usual cross section [m2]
  int awg = 0;      ///< the thinnest American gauge of at least that need
  double drop = 0;  ///< along it, there and back [V]
};

/// @param current  [A]
/// @param length   of the lead, one way [m]
/// @param most     voltage that may be lost along both leads [V]
/// @returns nullopt above what the list of usual cross sections carries.
std::optional<WireGauge> wire_gauge(double current, double length, double most);

}  // namespace thinspot::solver
