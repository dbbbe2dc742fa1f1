#pragma once

#include "solver/model.hpp"

namespace thinspot::solver {

struct Case;
struct WorkingPoint;

/// Conductivity times polarization resistance of a part, over half its largest
/// extent in the section.
struct Wagner {
  double number = 0;
  double length = 0;  ///< that half extent [m]
};
Wagner wagner_of(const Model& model, const Case& c, const WorkingPoint& point,
                 const Surface& surface);

}  // namespace thinspot::solver
