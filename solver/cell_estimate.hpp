#pragma once

#include "solver/case.hpp"
#include "solver/result.hpp"
#include "solver/wetted.hpp"

namespace thinspot::solver {

/// Surfaces of the whole set-up [m2].
struct Areas {
  std::vector<double> parts;  ///< each copy
  double part = 0;            ///< all copies
  double wires = 0;           ///< bare, of all copies
  double clips = 0, thieves = 0, anodes = 0;

  double cathode() const { return part + wires + clips + thieves; }
  /// Area of part that would draw as much as the whole cathode: a bare wire
  /// counts as in a solve.
  double drawing() const;
};

Areas find_areas(const Case& c, const WettedSection& wetted, double depth);

/// What one of several rectifiers should show.
struct RectifierEstimate {
  double current = 0;  ///< [A]
  double voltage = 0;  ///< at its terminals [V]
  Interval range;      ///< of what is not set: the voltage, or the current
  bool by_voltage = false;
};

/// What the meters should show, from gaps, widths and laws alone.
struct CellEstimate {
  double current = 0;  ///< whole cathode [A]
  double density = 0;  ///< mean over the part [A/m2]
  double voltage = 0;  ///< at the terminals [V]
  /// Range of what is not set: the voltage, or where that is set the current.
  Interval range;
  bool by_voltage = false;  ///< the voltage is set, the current estimated
  double ohmic = 0;         ///< resistance of the liquid [ohm]
  /// As in Case::rectifiers; voltage, range and by_voltage above are then
  /// those of the one with the largest current.
  std::vector<RectifierEstimate> rectifiers = {};
};

/// The liquid's resistance is estimated to within this factor. Solves of some
/// fifty set-ups gave 0.77 to 1.22 times the true one for single parts, up to
/// 1.4 times for racks (cell_estimate_test.cpp).
inline constexpr double kRoughness = 1.5;

/// A rough one: the liquid between an anode and the cathode is taken as a
/// wedge that widens from one surface to the other over the mean gap, and
/// bulges where there is room. Exact for a straight channel and for concentric
/// cylinders.
CellEstimate estimate_cell(const Case& c, const mesh::Section& section,
                           const WettedSection& wetted, const Areas& areas,
                           double depth);

}  // namespace thinspot::solver
