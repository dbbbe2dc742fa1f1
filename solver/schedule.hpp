#pragma once

#include "solver/certify.hpp"
#include "solver/coat.hpp"

#include <memory>
#include <vector>

namespace thinspot::solver {

/// One step, solved. Steps in which all stands alike and the supply is set
/// alike share their solution.
struct SolvedStep {
  Case used;  ///< this step alone
  std::shared_ptr<const Certified> solved;
  double growth = 0;  ///< thickness for a current density [m per A/m2]
};

/// All steps, and what they leave in sum.
struct Schedule {
  mesh::Section drawn;  ///< parts where they are drawn
  std::vector<SolvedStep> steps;
  std::vector<Coat> coats;          ///< of each part
  std::vector<CoatSpread> spreads;  ///< of their thickness
  /// How far the meshes may have put thickness off, each part [m].
  std::vector<MeshErrors::OfPart> errors;
  std::vector<double> probe_thickness, probe_errors;  ///< [m]

  const SolvedStep& last() const { return steps.back(); }
  bool within() const;  ///< every error is within the tolerance
  int rounds() const;   ///< of refinement, all meshes
};

/// Solves every step, refines each mesh until its error is within tolerance,
/// also where the coat of all steps is thinnest and heaviest, and adds up.
Schedule run_schedule(const Case& c);

/// What the same steps would leave with other currents.
struct Laid {
  std::vector<Coat> coats;          ///< of each part
  std::vector<CoatSpread> spreads;  ///< of their thickness
};
/// @param outcomes  of each step, on the schedule's meshes
/// @param growth    of each step
Laid lay_down(const Schedule& schedule, const Case& c,
              const std::vector<const Outcome*>& outcomes,
              const std::vector<double>& growth);

}  // namespace thinspot::solver
