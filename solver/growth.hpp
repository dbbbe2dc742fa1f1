#pragma once

#include "solver/case.hpp"
#include "solver/coat.hpp"
#include "solver/progress.hpp"

#include <vector>

namespace thinspot::solver {

struct Schedule;

/// What came of letting the parts' surfaces move with their deposit.
struct Growth {
  std::vector<int> substeps;        ///< in time, of each phase
  std::vector<double> errors;       ///< what half as many substeps change, at
                                    ///< most, each part [m]
  std::vector<double> volume;       ///< of metal, by the currents, each part
                                    ///< [m3]
  std::vector<CoatSpread> unmoved;  ///< of each part, had its surface stayed
  double area_drawn = 0;            ///< wetted, of all parts, real [m2]
  double area_grown = 0;            ///< in the last phase, at its end [m2]
};

/// Goes through a schedule that was solved as drawn once more, with surfaces
/// that move along their normals as fast as metal is deposited there. Each
/// phase is cut into equal substeps, each with the mean of the current
/// densities at its beginning and at its end (trapezoidal rule, the end found
/// by repetition); twice as many until that changes no thickness by more than
/// the tolerance. A phase's outcome becomes its mean over time, its current
/// density that at the moving surface; its model stays the one as drawn.
/// @throws NoResultError where the deposit closes a recess, meets another
///         solid, or grows past a sharp edge.
void grow(Schedule& schedule, const Case& c, const Progress& progress = {});

}  // namespace thinspot::solver
