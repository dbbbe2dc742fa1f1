#pragma once

#include "solver/interval.hpp"
#include "solver/profile.hpp"

#include <Eigen/Core>

namespace thinspot::solver {

struct PartOutcome;

/// A quantity along a part's surface: its least and largest average over a
/// window that slides along it, on open surface, and the least on judged one.
struct Extremes {
  Extreme least, largest, least_judged;  ///< the mean, and no window, where
                                         ///< no such surface is
  Spread spread;                         ///< of the open surface, with the mean
};

/// @param values  at the nodes that the surface's edges name
/// @param window  length of the averages [m]
/// @param mean    over all open surface, in the unit of the values
Extremes extremes_over(const Surface& surface, const Eigen::VectorXd& values,
                       double window, double mean);

/// Those of a part's current density, into its outcome.
/// @param part  has its current density
void put_extremes(PartOutcome& part, const Surface& surface, double window,
                  double mean);

}  // namespace thinspot::solver
