#pragma once

#include "mesh/section.hpp"
#include "solver/interval.hpp"
#include "solver/schedule.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// What one of many set-ups comes to, in a row of numbers: of several parts the
/// least and largest of all, and the mean over all their area.
struct SetUpFigures {
  double current = 0, voltage = 0;  ///< of the supply, last step [A], [V]
  std::string limited_by;           ///< as in CellResult
  Spread thickness;                 ///< [m]
  double least_judged = 0;          ///< thickness on significant surface [m]
  mesh::Point thinnest = mesh::Point::Zero();  ///< where that is, as drawn [m]
  Spread current_density;                      ///< in the last step [A/m2]
  double largest_density = 0;                  ///< of any step [A/m2]
  double mass = 0;                             ///< deposited, all parts [kg]
  std::optional<double> share_in_range;  ///< of the area, where a working range
                                         ///< is given, 0..1
  std::optional<bool> burns;             ///< empty: no limit is known
  std::optional<bool> target_met;
  std::optional<double> time_needed;  ///< for the target [s]; empty: never
  std::vector<double> probes;         ///< thickness [m]

  /// How far the mesh may have put figures off, either way.
  struct MeshErrors {
    Spread thickness;         ///< [m]
    double least_judged = 0;  ///< [m]
    double voltage = 0;       ///< [V]
    double current = 0;       ///< [A]
  };
  MeshErrors mesh_errors;
  bool within = false;  ///< all of these are within the tolerance

  /// 95 %, from inputs and section, where they were asked for.
  struct Bands {
    Interval least_judged, mean;  ///< thickness [m]
    Interval voltage, current;    ///< [V], [A]
    std::optional<double> chance;
  };
  std::optional<Bands> bands;
};

/// What steps have left, whether on meshes of their own or answered on others'.
struct LaidSteps {
  const Schedule& schedule;  ///< that the meshes are of
  const std::vector<Coat>& coats;
  const std::vector<CoatSpread>& spreads;
  std::vector<const Outcome*> outcomes;  ///< of each phase
};

/// All but mesh errors, bands and probes.
SetUpFigures figures_of(const LaidSteps& laid, const Case& c);

/// All of a set-up's own schedule.
/// @param bands  whether these are wanted
SetUpFigures figures_of(const Schedule& schedule, const Case& c, bool bands);

}  // namespace thinspot::solver
