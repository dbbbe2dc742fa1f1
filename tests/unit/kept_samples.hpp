#pragma once

#include "solver/kept_result.hpp"
#include "solver/reading.hpp"

#include <string>

namespace thinspot::tests {

/// A result's summary.json as it is written beside a surface.csv.
std::string summary_text(const solver::Result& result);

/// A result through its files and back.
solver::KeptResult kept(const solver::Result& result,
                        const std::string& name = "a-out");

/// A loop of points by hand: a bar of 2 mm by 10 mm with its lower left corner
/// at the origin, walked from the middle of its lower edge, `each` points on
/// every millimetre; faces lower, right, upper and left. Thickness runs
/// straight with the arc: 10 um and 1 um more on every millimetre.
/// @param each  at least 1
solver::KeptResult bar(int each, const std::string& name = "a-out");

/// All points turned about the origin, then shifted, and the walk begun at
/// another point.
solver::KeptResult moved(solver::KeptResult kept, double turn,
                         const mesh::Point& shift, std::size_t begin);

/// A reading of the tank, in SI, on line 7 of its file.
solver::Reading reading(solver::Reading::Of of, double value,
                        double plus_minus);

}  // namespace thinspot::tests
