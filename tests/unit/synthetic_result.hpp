#pragma once

#include "solver/result.hpp"

#include <optional>
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
  int spots = 2;                    ///< thin ones, and as many heavy ones
  bool unjudged = true;             ///< the upper edge of the part
  bool banded = true;               ///< least, mean and largest are uncertain
  double target = 10e-6;            ///< [m]; 0: none
  double thickness = 15e-6;         ///< mean [m]
  double swing = 0.4;               ///< of the thickness about its mean, 0..1
  mesh::Point tank{90e-3, 120e-3};  ///< width, height [m]
  std::optional<mesh::Outline> tank_shape = {};  ///< in place of that
  /// Another shape for the part than a plate of part_size.
  std::string shape = "plate";
  mesh::Sizes sizes = {};
  double turn = 0;  ///< of the part [rad]
  std::vector<mesh::Point> rack =
      {};  ///< places of copies, in place of part_at
  std::vector<mesh::Solid> more = {};  ///< clips, thieves, shields …
  std::vector<mesh::Mask> masks = {};
  bool inert = false;  ///< the anodes do not dissolve
};

/// A result made without mesh generator and solver: a plate in a tank,
/// structured triangles around the solids, and a potential
/// from the distances to part and anodes, 0 V and 1 V at them. Plausible to
/// the eye, true to no law.
solver::Result synthetic_result(const Synthetic& wanted = {});

/// The section of it alone.
mesh::Section synthetic_section(const Synthetic& wanted);

/// A plate to put into `more`; its key is its name.
mesh::Solid plate(std::string name, mesh::Role role, mesh::Point size,
                  mesh::Point at);

/// Results that are hard to draw, each with a name for the test's report.
struct HardCase {
  std::string name;
  Synthetic wanted;
};
std::vector<HardCase> hard_cases();

}  // namespace thinspot::tests
