#pragma once

#include "solver/interval.hpp"
#include "solver/model.hpp"
#include "solver/probe.hpp"
#include "solver/profile.hpp"
#include "solver/supply.hpp"

#include <Eigen/Core>

#include <vector>

namespace thinspot::solver {

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
  Extreme least, largest, least_judged;
};

/// A window along a part whose average is wanted too.
struct Watched {
  std::size_t part = 0;
  Extreme window;  ///< of_loop in the part's Surface; none: from == to
};

/// What one working point brings.
struct Outcome {
  WorkingPoint point;
  std::vector<PartOutcome> parts;  ///< in the order of Model::surfaces
  std::vector<ProbeOutcome> probes;
  std::vector<Watched> watched;
};

/// Currents of the case in a model of its own geometry.
/// @param begin  as find_working_point takes it
Outcome evaluate(const Model& model, const Case& c,
                 const Beginning& begin = {});

/// Windows and spread of a part's current density, from that.
void put_extremes(PartOutcome& part, const Surface& surface, double window,
                  double mean);

}  // namespace thinspot::solver
