#pragma once

#include "viz/liquid_field.hpp"

#include <vector>

namespace thinspot::viz {

/// What the pictures draw of the field, computed once for all panels [m].
struct SectionField {
  struct Equipotential {
    double volts = 0;
    std::vector<Chain> chains;
  };
  struct Shade {
    double level = 0;  ///< lowest current density in it [A/m2]
    std::vector<Chain> region;
  };
  std::vector<Equipotential> equipotentials;
  double volts_apart = 0;
  std::vector<Shade> shades;         ///< rising; the lowest of all has none
  std::vector<Chain> current_lines;  ///< from the part upstream
  int line_count = 0;                ///< that share the part's current evenly
};

SectionField section_field(const solver::Result& result);

/// Colour of a shade, 0 the lowest of all .. count the highest: the lighter
/// part of the ramp, so that lines stay readable on it.
std::string shade_colour(std::size_t k, std::size_t count);

}  // namespace thinspot::viz
