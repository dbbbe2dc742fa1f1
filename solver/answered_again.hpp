#pragma once

#include "solver/schedule.hpp"

#include <cstddef>
#include <memory>
#include <vector>

namespace thinspot::solver {

/// Phases of a schedule's steps, answered with other quantities or settings on
/// the meshes that it has.
struct AnsweredPhases {
  std::vector<Case> used;  ///< each phase alone
  std::vector<std::shared_ptr<const Outcome>> outcomes;
  std::vector<double> growth;  ///< thickness for a current density
                               ///< [m per A/m2]
};

/// What shares a solution in the schedule shares it again, where the case does
/// not set it apart. Probes are read where the case has any.
/// @param c            differs from what was solved in quantities and settings
///                     alone (for_each_quantity, for_each_setting)
/// @param first_step   of the schedule's, that is the case's first
/// @param first_phase  likewise
/// @throws CaseError where no current flows with these.
AnsweredPhases answered_phases(const Schedule& schedule, const Case& c,
                               std::size_t first_step = 0,
                               std::size_t first_phase = 0);

/// A schedule of the same set-up with other quantities or settings, on the
/// meshes that it has; surfaces as drawn, also where the schedule's moved. Mesh
/// errors are those of before.
/// @param c  the schedule's own case but for these
/// @throws CaseError where no current flows with these.
Schedule answered_again(const Schedule& schedule, const Case& c);

/// The same with errors of its own, on meshes that are refined where these
/// quantities need it. With as many angles as before, where the part turns on
/// and on; what more of them would change is in the errors.
/// @throws CaseError likewise.
Schedule certified_again(const Schedule& schedule, const Case& c);

}  // namespace thinspot::solver
