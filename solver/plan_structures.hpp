#pragma once

#include "solver/case.hpp"
#include "solver/plan_variables.hpp"

#include <string>
#include <vector>

namespace thinspot::solver {

/// What hangs in the tank; where exactly is what its variables say.
struct PlanStructure {
  Case content;
  std::vector<PlanVariable> variables;
  std::size_t anodes = 0;
  bool inside = false;                 ///< the anode hangs inside of the part
  bool shield = false, thief = false;  ///< one of the wishes' is in it
  bool drawn = false;                  ///< as the case has it
};

/// The case as drawn first; then with other numbers of anodes, one inside of a
/// bore, with a shield or a thief of the wishes, as far as there is room.
std::vector<PlanStructure> plan_structures(const Case& c);

/// A stretch of steps that a plan may prescribe.
struct PlanSchedule {
  std::string name;         ///< "turned once"; "" where nothing is done
  std::vector<Step> steps;  ///< of which only the shares of time count
  int turns = 0;
  bool drawn = false;
};

/// The steps as drawn first; then what else the part allows: half a turn about
/// its wire in a side view, positions evenly around in a plan view. Steps that
/// change anodes, clips, supplies or the solution stay as they are drawn.
/// @param most  turns
std::vector<PlanSchedule> plan_schedules(const Case& c, int most);

/// Turns that the wishes allow; left out: those drawn, or 1 in a side view, 3
/// in a plan view.
int most_turns(const Case& c);

}  // namespace thinspot::solver
