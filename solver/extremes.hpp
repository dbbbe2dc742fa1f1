#pragma once

#include "solver/interval.hpp"
#include "solver/profile.hpp"
#include "solver/surface.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

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

/// Averages over the open (or judged) surface of all loops.
std::vector<Extreme> averages_over(const Surface& surface,
                                   const Eigen::VectorXd& values, double window,
                                   bool judged_only);

/// The most extreme average of one sign; the mean where there is none.
Extreme most_extreme(const std::vector<Extreme>& averages, double sign,
                     double mean);

}  // namespace thinspot::solver
