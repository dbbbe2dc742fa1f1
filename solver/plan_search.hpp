#pragma once

#include "solver/plan_limits.hpp"
#include "solver/plan_structures.hpp"
#include "solver/progress.hpp"

#include <vector>

namespace thinspot::solver {

/// The best that was found for one structure and one schedule.
struct Found {
  std::size_t structure = 0, schedule = 0;  ///< indices into what was searched
  std::vector<double> at;                   ///< of the structure's variables
  Trial trial;
};

/// Everything that a search goes over.
struct SearchSpace {
  std::vector<PlanStructure> structures;
  std::vector<std::vector<PlanSchedule>> schedules;  ///< of each structure
  std::vector<std::vector<double>> handling;         ///< of each of them [s]
  DriveRange drive;
  PlanLimits limits;
  unsigned seed = 1;
};

/// All that the case's wishes allow.
/// @param limits  that every set-up must keep
/// @throws InputError where the wishes name what cannot be moved.
SearchSpace search_space(const Case& c, const PlanLimits& limits);

struct SearchResult {
  std::vector<Found> found;  ///< one for each structure and schedule that can
                             ///< stand, best first
  int layouts = 0;
  int candidates = 0;
};

/// The structure with its variables there.
Case case_at(const PlanStructure& structure, const std::vector<double>& at);

/// Looks for the best of each structure and schedule: local searches by NLopt
/// without derivatives from several starts, those that promise more with more
/// of them, side by side in processes of their own. The same seed gives the
/// same result, however many processors there are.
SearchResult search(const SearchSpace& space, const Progress& progress = {});

}  // namespace thinspot::solver
