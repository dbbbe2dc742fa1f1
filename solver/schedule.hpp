#pragma once

#include "solver/coat.hpp"
#include "solver/growth.hpp"
#include "solver/progress.hpp"
#include "solver/solved_steps.hpp"
#include "solver/turning.hpp"

#include <optional>
#include <vector>

namespace thinspot::solver {

/// All steps, and what they leave in sum. A part that turns within a step is in
/// several phases of it, one for each angle; `steps` has one for each phase.
struct Schedule : SolvedSteps {
  mesh::Section drawn;      ///< parts where they are drawn
  std::vector<int> angles;  ///< that stand for each step of the case; 1 where
                            ///< nothing turns without a stop
  std::vector<Phase> phases;
  std::vector<Coat> coats;          ///< of each part
  std::vector<CoatSpread> spreads;  ///< of their thickness
  /// How far the meshes may have put thickness off, each part [m].
  std::vector<MeshErrors::OfPart> errors;
  /// What twice as many angles may still change, each part [m].
  std::vector<double> turning_errors;
  std::vector<double> probe_thickness, probe_errors;  ///< [m]
  std::optional<Growth> growth;  ///< where surfaces move with their deposit

  const SolvedStep& last() const { return steps.back(); }
  bool within() const;      ///< every error is within the tolerance
  bool by_density() const;  ///< efficiency goes by current density in any
  int rounds() const;       ///< of refinement, all meshes
};

/// Solves every step, refines each mesh until its error is within tolerance,
/// also where the coat of all steps is thinnest and heaviest, and adds up.
Schedule run_schedule(const Case& c, const Progress& progress = {});

/// Adds up steps that are solved, of one case or of several layers: coats,
/// spreads and their errors, each mesh refined once more where the coat of all
/// steps is thinnest and heaviest.
void add_up_watched(Schedule& schedule, const Case& c,
                    const Progress& progress = {});

/// Steps whose currents were answered anew: certifies each on its mesh, refined
/// where these currents need it, and adds up with the errors that they have.
void certify_as_it_stands(Schedule& schedule, const Case& c);

/// Thickness at the probes of the case, and its errors, from the steps.
void add_up_probes(Schedule& schedule, const Case& c);

/// A part where it is drawn.
const mesh::Outline& drawn_outline(const Schedule& schedule, std::size_t part);

/// What the same steps would leave with other currents.
struct Laid {
  std::vector<Coat> coats;          ///< of each part
  std::vector<CoatSpread> spreads;  ///< of their thickness
};
/// @param outcomes  of each phase, on the schedule's meshes
/// @param growth    of each phase
Laid lay_down(const Schedule& schedule, const Case& c,
              const std::vector<const Outcome*>& outcomes,
              const std::vector<double>& growth);

}  // namespace thinspot::solver
