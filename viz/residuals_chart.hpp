#pragma once

#include "solver/case.hpp"

#include <string>
#include <vector>

namespace thinspot::viz {

/// One reading against what the case says.
struct ResidualRow {
  std::string name;     ///< "voltage at 0.2 A"
  std::string figures;  ///< "read 0.41 V, now 0.42 V"
  double before = 0;    ///< what the case says beyond what was read, in the
                        ///< reading's own half width
  double now = 0;       ///< likewise with the fitted values
  bool outlier = false;
};

/// What the case says of each reading, before the fit (open) and now (filled),
/// about a line at what was read; the band is the reading's own half width.
/// Those beyond four of it stand at the edge, with an arrow. At most forty
/// readings, those farthest off.
/// @returns SVG text, to be read down to 370 px
std::string residuals_chart(const solver::Case& c,
                            const std::vector<ResidualRow>& rows);

}  // namespace thinspot::viz
