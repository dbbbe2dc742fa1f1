#pragma once

#include "solver/plan.hpp"

#include <string>
#include <vector>

namespace thinspot::io {

/// What a plan says, in sentences for the bench.
struct PlanWords {
  std::string verdict;  ///< what to do and what it gains, one or two sentences
  std::vector<std::string> gain;  ///< time, evenness, thin spot, metal, against
                                  ///< the drawn set-up
  std::vector<std::string> first;  ///< what small changes do, the most first
  std::string out_of_reach;        ///< what to relax; "" where all is reached
  /// Of each set-up what is to be done otherwise than drawn, in the order in
  /// which hands do it; no capital, no full stop; none: it is the drawn one.
  std::vector<std::vector<std::string>> changes;
};

/// @pre plan.set_ups is not empty
PlanWords plan_words(const solver::Plan& plan);

/// "1.8": the largest over the least thickness; "no end" where a place gets
/// nothing.
std::string evenness_text(const solver::PlanFigures& figures);

}  // namespace thinspot::io
