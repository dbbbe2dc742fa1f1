#pragma once

#include "mesh/section.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// What a plan makes least: the time at the bench, the largest over the least
/// thickness of the significant surface, or the metal deposited.
enum class PlanGoal { time, evenness, metal };

/// A key of the case that a plan may change, and between which bounds.
struct Vary {
  std::string key;           ///< its address, as in "anode.sheet.gap"
  double low = 0, high = 0;  ///< ends included [SI]
};

/// Shields or thieves of one size that a plan may put anywhere, or leave out.
struct Spare {
  mesh::Solid solid;  ///< its place is of no account
  int count = 1;      ///< as many at most
};

/// Of a case: what may change in a plan for it, and what matters. What is left
/// out follows from tank and part.
struct PlanWishes {
  PlanGoal goal = PlanGoal::time;
  std::optional<int> most_turns;   ///< handlings of the part while it plates
  std::optional<int> most_anodes;  ///< 1 to 4
  std::optional<double> longest;   ///< at the bench, handling included [s]
  double handling = 60;            ///< that one takes [s]; common practice, no
                                   ///< source
  /// Where any are given, nothing else moves; the time follows from the target.
  std::vector<Vary> vary;
  std::optional<Spare> shield, thief;
  bool move_clip = false;  ///< to another side of the part
  unsigned seed = 1;       ///< of the search's starts
};

}  // namespace thinspot::solver
