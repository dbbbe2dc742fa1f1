#pragma once

#include "solver/certify.hpp"
#include "solver/progress.hpp"
#include "solver/turnable.hpp"

#include <memory>
#include <vector>

namespace thinspot::solver {

/// One step, solved. Steps in which all stands alike and the supply is set
/// alike share their solution.
struct SolvedStep {
  Case used;  ///< this step alone
  std::shared_ptr<const Certified> solved;
  double growth = 0;  ///< thickness for a current density [m per A/m2]
  int turnable = -1;  ///< which of SolvedSteps' it was solved by; -1: a mesh of
                      ///< its own
};

struct SolvedSteps {
  /// Steps in which all stands alike but for the parts' turn share a mesh.
  struct Turns {
    Step like;
    Turnable turnable;
  };
  std::vector<SolvedStep> steps;
  std::vector<Turns> turns;
};

/// Solves every step of a case, each without turning within it.
/// @param numbers  that each step has for the user, from 0
/// @param drawn   the section with the parts where they are drawn
/// @param before  steps solved already, of which those that are alike serve
/// @throws InputError with the step that is at fault, but for the first.
SolvedSteps solve_steps(const Case& c, const std::vector<std::size_t>& numbers,
                        const mesh::Section& drawn, const SolvedSteps& before,
                        const Progress& progress = {});

/// Certifies every step once more with an eye on windows along its parts.
/// @param watched  of each step
void watch(SolvedSteps& steps, const std::vector<std::vector<Watched>>& watched,
           const Progress& progress = {});

}  // namespace thinspot::solver
