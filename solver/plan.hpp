#pragma once

#include "solver/case.hpp"
#include "solver/progress.hpp"
#include "solver/result.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::solver {

/// What a set-up comes to.
struct PlanFigures {
  double plating = 0;   ///< until the least thickness is reached on all that is
                        ///< judged; without a target, as drawn [s]
  double bench = 0;     ///< the same and what handling takes [s]
  int turns = 0;        ///< handlings of the part while it plates
  double least = 0;     ///< thickness of the judged surface after that time [m]
  double mean = 0;      ///< of the whole part [m]
  double largest = 0;   ///< of its open surface [m]
  double evenness = 0;  ///< largest over least; 1: even
  double metal = 0;     ///< deposited on all cathodes [kg]
  double densest = 0;   ///< largest current density of all steps [A/m2]
  double current = 0;   ///< in the first step [A]
  double voltage = 0;   ///< likewise, at the supply [V]
  /// Bounds that it breaks, as sentences: "burns at the upper rim"; empty: it
  /// keeps them all.
  std::vector<std::string> breaks;
};

/// A set-up that the plan proposes, or the one that was drawn.
struct SetUp {
  std::string name;  ///< in words: "two anodes, turned once"
  Case content;      ///< rounded to what a ruler and a knob can set
  PlanFigures figures;
  std::shared_ptr<const Result> result;  ///< of its full solve
};

/// One end of the curve of what evenness costs in time: nothing that was tried
/// is as quick and more even.
struct TradeOff {
  double bench = 0;  ///< [s]
  double evenness = 0;
  double current = 0;  ///< in the first step [A]
  int turns = 0;
  std::string name;  ///< of the set-up it is of
};

/// What one small change does to the thinnest judged spot of the set-up as
/// drawn.
struct Lever {
  std::string key;    ///< address of what changes; "" for a turn
  std::string words;  ///< "sheet 1 mm farther from the part"
  double change = 0;  ///< of the thinnest spot's thickness, in the direction
                      ///< that the words say [m]
  double share = 0;   ///< the same over that thickness
};

/// Nothing within the bounds reaches what is wanted.
struct OutOfReach {
  std::string what;     ///< "no set-up reaches 10 um within 2 h"
  std::string key;      ///< of the bound to relax, as in "plan.max_time"
  std::string relaxed;  ///< what would do, with unit: "3 h 10 min"
};

/// What to do, and why.
struct Plan {
  SetUp drawn;
  /// The one to take first, then the best with fewer turns, fewer anodes or no
  /// shield, at most three. The first is the drawn one where nothing beats it.
  std::vector<SetUp> set_ups;
  std::vector<TradeOff> trade_off;  ///< quickest first
  std::vector<Lever> levers;        ///< that which does most first
  std::optional<OutOfReach> out_of_reach;
  std::vector<std::string> varied;  ///< what could change, each in words with
                                    ///< its bounds
  int layouts = 0;     ///< ways of standing in the tank that were evaluated
  int candidates = 0;  ///< those with their currents and schedules
  double seconds = 0;
};

/// Looks for the set-up that a case's wishes ask for.
/// @throws InputError where what may vary is none of the case's, or its bounds
///         leave nothing.
/// @throws NoResultError where not even the drawn set-up can be solved.
Plan plan(const Case& c, const Progress& progress = {});

}  // namespace thinspot::solver
