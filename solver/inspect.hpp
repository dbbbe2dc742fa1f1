#pragma once

#include "solver/case.hpp"
#include "solver/cell_estimate.hpp"
#include "solver/findings.hpp"
#include "solver/hanging.hpp"
#include "solver/usual_range.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

enum class DepthFrom { given, area, shape, none };

/// What a case tells before it is solved. Plain data, SI units.
struct Inspection {
  mesh::Section section;
  double depth = 1;                        ///< of a planar section [m]
  DepthFrom depth_from = DepthFrom::none;  ///< none: axisymmetric
  Areas areas;
  CellEstimate cell;
  std::optional<UsualRange> usual;
  /// Whole cathode current for the usual range; 0 where there is none [A].
  Interval usual_current;
  double mean_thickness = 0;          ///< after all steps, at that current [m]
  std::optional<double> time_needed;  ///< for the target at the mean [s]
  double anode_ratio = 0;             ///< anodes' area to the cathode's
  std::optional<Hanging> hanging;     ///< upright planar sections
  std::vector<Finding> findings;      ///< most serious first
  std::vector<std::string> notes;     ///< on the reading and on the section
};

/// Looks at a case without meshing or solving it.
/// @throws InputError as a solve would: overlaps, a part out of the liquid, no
///         way for the current, a target face that the part has not.
Inspection inspect(const Case& c);

}  // namespace thinspot::solver
