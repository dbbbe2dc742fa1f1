#pragma once

#include "solver/result.hpp"

#include <string>
#include <vector>

namespace thinspot::tests {

/// What a made-up result is to look like.
struct Synthetic {
  mesh::Cut cut = mesh::Cut::side;
  std::string title = "A bar in a tank";
  mesh::Point part_size{2.4e-3, 30e-3};  ///< [m]
  mesh::Point part_at{45e-3, 50e-3};     ///< its middle [m]
  double level = 0.1;                    ///< [m]
  /// Names of plates of 2 mm x 60 mm, side by side along the tank.
  std::vector<std::string> anodes{"sheet"};
  int spots = 2;             ///< thin ones, and as many heavy ones
  bool unjudged = true;      ///< the upper edge of the part
  bool banded = true;        ///< least, mean and largest are uncertain
  double target = 10e-6;     ///< [m]; 0: none
  double thickness = 15e-6;  ///< mean [m]
  double swing = 0.4;        ///< of the thickness about its mean, 0..1
};

/// A result made without mesh generator and solver: a plate in a tank of
/// 90 mm x 120 mm, structured triangles around the solids, and a potential
/// from the distances to part and anodes, 0 V and 1 V at them. Plausible to
/// the eye, true to no law.
solver::Result synthetic_result(const Synthetic& wanted = {});

/// Results that are hard to draw, each with a name for the test's report.
struct HardCase {
  std::string name;
  Synthetic wanted;
};
std::vector<HardCase> hard_cases();

}  // namespace thinspot::tests
