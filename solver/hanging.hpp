#pragma once

#include "mesh/section.hpp"
#include "solver/pockets.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// A stretch of the part's surface that lies nearly level.
struct Ledge {
  mesh::Point from = mesh::Point::Zero(), to = mesh::Point::Zero();  ///< [m]
  double width = 0;  ///< along x [m]
  std::string face;  ///< of its longest curve
};

/// What the drawn position does with gas, sludge and solution. Only what lies
/// below the level counts.
struct Hanging {
  std::vector<Pocket> hollows;    ///< open downwards: hold gas
  std::vector<Pocket> pools;      ///< open upwards: carry solution out
  std::vector<Ledge> shelves;     ///< face up: collect sludge
  std::vector<Ledge> undersides;  ///< face down: bubbles cling to them
};

/// Reads one part of an upright planar section; of a rack every copy hangs
/// alike.
/// @param outline  of the part in its place [m]
/// @param level    of the liquid [m]
Hanging read_hanging(const mesh::Outline& outline, double level);

/// Nearly level is within this angle [rad], and a ledge counts from this width
/// on [m]; a hollow or pool less deep than this [m] is passed over. Common
/// practice, no source.
inline constexpr double kLevelAngle = 0.17453292519943295;  // 10 degrees
inline constexpr double kLeastLedge = 4e-3;
inline constexpr double kLeastPocket = 0.5e-3;

}  // namespace thinspot::solver
