#pragma once

#include "solver/multigrid.hpp"

#include <vector>

namespace thinspot::solver {

/// A system of which some of the first nodes are held, and what solves it.
struct LaneSystem {
  BorderedRows open, closed;  ///< without regard to what is held, and with
  std::vector<bool> held;     ///< of the first nodes
  bool any_held = false;
  /// What laws add to the stiffness, applied to ones: of the first nodes.
  std::vector<double> law_on_ones;
  Multigrid multigrid;

  LaneSystem(BorderedRows without, const Corners& corners,
             std::vector<bool> which, std::vector<double> on_ones);
  LaneSystem(const LaneSystem&) = delete;
  LaneSystem& operator=(const LaneSystem&) = delete;

  std::size_t first() const { return held.size(); }
};

/// Where a few fields are solved for; what is in it afterwards.
struct LaneWork {
  explicit LaneWork(const LaneSystem& system);

  LaneVector x;  ///< the fields, but for a constant
  Lanes constant = Lanes::Zero();
  Lanes rest_square = Lanes::Zero(), x_square = Lanes::Zero();
  int cycles = 0;  ///< most of any field

  LaneVector rest, way, pushed, mended;
  Multigrid::Room room;
};

/// Solves by conjugate gradients, preconditioned by the cycle. A field is done
/// when the energy of its error, which (rest . cycle rest) is but for a factor
/// near 1, is within kEnergyError of its own, or rounding: that of the true
/// rest, not of the one that is carried along. What one field takes and becomes
/// does not depend on the other ones.
/// Where nothing is held the constant that is best in energy is taken off
/// first: the energy is then that of currents, beside large resistances a
/// millionth of the whole.
/// @param load   of the first nodes
/// @param value  of those that are held; the others' are not read
/// @returns  false where some field did not settle
bool solve_lanes(const LaneSystem& system, const LaneVector& load,
                 const LaneVector& value, LaneWork& work);

/// Of a figure that is linear in the field, what may be left is the product of
/// the energy norms of the field's error and of the figure's dual. Estimates
/// allow for 1e-9 of rounding; a tenth of it leaves room for duals whose figure
/// is small beside their norm.
inline constexpr double kEnergyError = 1e-10;

}  // namespace thinspot::solver
