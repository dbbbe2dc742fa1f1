#pragma once

#include "mesh/curve.hpp"
#include "mesh/shape.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::mesh {

enum class Role { part, clip, anode, thief, shield, floating };

enum class Side { left, right, above, below };

/// A solid as the case file describes it.
struct Solid {
  std::string name;  ///< "part", or the name given to the anode, clip …
  std::string key;   ///< address in the case file, as in "anode.sheet";
                     ///< no two solids share one
  Role role = Role::part;
  std::string shape;         ///< name of a ShapeKind
  Sizes sizes;               ///< [m]; flags are 1 or 0
  Point at = Point::Zero();  ///< centre of the bounding box at turn 0 [m]
  double turn = 0;           ///< counter-clockwise [rad]
  /// In place of `at`: beside the part on this side, this free distance from
  /// it as a ruler measures it, centred on it [m].
  std::optional<Side> side;
  double gap = 0;
};

struct Tank {
  enum class Shape { box, round };
  Shape shape = Shape::box;
  double width = 0;   ///< inner width, or diameter of a round tank [m]
  double height = 0;  ///< inner height, or second width in a plan view [m]
  double level = 0;   ///< of the liquid above the floor; unused in plan [m]
};

struct SectionSpec {
  Cut cut = Cut::side;
  Tank tank;
  std::vector<Solid> solids;
};

/// A solid in its place. Its curves keep their order whatever the place, so
/// that (loop, curve, t) is a point of the material.
struct PlacedSolid {
  Solid spec;
  Outline outline;  ///< whole, also where it sticks out of the liquid
};

/// All solids in their places inside the tank, checked.
struct Section {
  Cut cut = Cut::side;
  Tank tank;
  Outline liquid_bounds;  ///< tank below the level; faces "wall", "surface",
                          ///< "axis"
  std::vector<PlacedSolid> solids;
};

/// Places every solid and checks that each lies at least partly in the liquid
/// and that none overlaps another.
/// @throws InputError naming every offending solid.
Section build_section(const SectionSpec& spec);

bool is_electrode(Role role);

}  // namespace thinspot::mesh
