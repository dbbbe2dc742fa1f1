#pragma once

#include "solver/anode_health.hpp"
#include "solver/burn.hpp"
#include "solver/edge_build.hpp"
#include "solver/gas.hpp"
#include "solver/in_range.hpp"
#include "solver/progress.hpp"
#include "solver/throwing_power.hpp"
#include "solver/why.hpp"

#include <optional>

namespace thinspot::solver {

/// What a result means at the bench besides thickness. Everything in here
/// follows from the steps as they were solved.
struct Appraisal {
  Gas gas;
  /// Of the solution at the part's mean current density in the last step.
  /// Of several layers each has its own, and their sum none.
  std::optional<ThrowingPower> throwing;
  Anodes anodes;
  BurnMap burn;  ///< of several layers: of all of them
  std::optional<InRange> range;
  std::optional<EdgeBuild> edges;
  std::optional<Why> why;
};

/// Fills in Result::appraisal and whether anything burns in a step.
/// @param result  of the same steps, all else of it filled in
void appraise(const Schedule& schedule, const Case& c, Result& result,
              const Progress& progress = {});

/// The same of several layers, each of which is appraised already.
/// @param schedule  of all their steps
void appraise_layers(const Schedule& schedule, Result& whole,
                     const Progress& progress = {});

}  // namespace thinspot::solver
