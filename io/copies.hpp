#pragma once

#include "solver/result.hpp"

namespace thinspot::io {

// Figures over all copies of the part; with one part its own.
// @pre result.parts is not empty

/// Index into Result::parts of the copy with the thinnest spot.
std::size_t thinnest_spot_on(const solver::Result& result);

/// Index into Result::parts of the copy with the heaviest spot.
std::size_t heaviest_spot_on(const solver::Result& result);

struct Banded {
  double value = 0;
  solver::Interval band;
};

/// Over the area of all copies [m]. The band is the mean of the copies' bands:
/// wider than the truth, as the mean of widths is never below the width of the
/// mean.
Banded mean_thickness(const solver::Result& result);

double whole_area(const solver::Result& result);     ///< [m2]
double whole_current(const solver::Result& result);  ///< last step [A]
double whole_mass(const solver::Result& result);     ///< deposited [kg]

}  // namespace thinspot::io
