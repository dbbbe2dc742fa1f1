#pragma once

#include "solver/case.hpp"
#include "solver/model.hpp"
#include "solver/probe.hpp"
#include "solver/profile.hpp"
#include "solver/result.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

/// Faraday constant [C/mol], exact since the 2019 SI: e N_A.
inline constexpr double kFaraday = 96485.33212;

/// Thickness that grows each second at 1 A/m2 and full efficiency [m3/C].
///   M / (n F rho)
double growth_per_charge(const Metal& metal);

/// Mass deposited by one coulomb at full efficiency, M / (n F) [kg/C].
double mass_per_charge(const Metal& metal);

/// Thickness that a current density of 1 A/m2 leaves in all steps [m3/A].
double growth_per_density(const Case& c);

/// What a part gets, before it is put into words.
struct PartOutcome {
  Eigen::VectorXd current_density;  ///< at its electrode's rows [A/m2]
  double current = 0;               ///< [A]
  /// Current over the area as drawn, where the surface has moved and that is
  /// another than the current density at it; else empty [A/m2].
  Eigen::VectorXd over_drawn_area;
  Spread current_density_spread;  ///< [A/m2]
  /// Windows in which current density is least, largest, and least on
  /// significant surface; none (from == to) where no surface is open [A/m2].
  Extreme least, largest, least_of_judged;
};

/// A window along a part whose average is wanted too.
struct Watched {
  std::size_t part = 0;
  Extreme window;  ///< of_loop in the part's Surface; none: from == to
};

struct Outcome {
  WorkingPoint point;
  std::vector<PartOutcome> parts;  ///< in the order of Model::surfaces
  std::vector<ProbeOutcome> probes;
  std::vector<Watched> watched;
};

/// Conductivity times polarization resistance of a part, over half its largest
/// extent in the section.
struct Wagner {
  double number = 0;
  double length = 0;  ///< that half extent [m]
};
Wagner wagner_of(const Model& model, const Case& c, const WorkingPoint& point,
                 const Surface& surface);

/// Currents and thickness of the case in a model of its own geometry.
/// @param near  the working point of a case that differs little, if there is
Outcome evaluate(const Model& model, const Case& c,
                 const WorkingPoint* near = nullptr);

/// The most extreme average of one sign; the mean where there is none.
Extreme most_extreme(const std::vector<Extreme>& averages, double sign,
                     double mean);

/// Averages over the open (or judged) surface of all loops.
std::vector<Extreme> averages_over(const Surface& surface,
                                   const Eigen::VectorXd& values, double window,
                                   bool judged_only);

}  // namespace thinspot::solver
