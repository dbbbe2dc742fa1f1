#include "solver/plan_figures.hpp"
#include "solver/plan_structures.hpp"
#include "solver/step_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace thinspot::solver {

namespace {

/// Steps that differ in nothing but how the part stands and how long.
bool plain(const Case& c) {
  const Step& first = c.steps.front();
  return first.off.empty() && first.lifted.empty() &&
         std::all_of(c.steps.begin(), c.steps.end(), [&](Step step) {
           step.motion = first.motion;
           return same_currents(step, first) && !step.temperature &&
                  !step.conductivity;
         });
}

/// A round part in a plan view looks alike from all sides.
bool is_round(const Case& c) {
  return std::all_of(
      c.section.solids.begin(), c.section.solids.end(), [](const auto& s) {
        return s.role != mesh::Role::part ||
               ((s.shape == "rod" || s.shape == "tube") && s.axis.norm() == 0);
      });
}

std::string times(int turns) {
  return turns == 1 ? "turned once" : fmt::format("turned {} times", turns);
}

}  // namespace

int most_turns(const Case& c) {
  if (c.plan.most_turns) return *c.plan.most_turns;
  return std::max(handlings(c), c.section.cut == mesh::Cut::plan ? 3 : 1);
}

std::vector<PlanSchedule> plan_schedules(const Case& c, int most) {
  std::vector<PlanSchedule> all;
  PlanSchedule drawn;
  drawn.steps = c.steps;
  drawn.turns = handlings(c);
  drawn.drawn = true;
  const bool turning =
      std::any_of(c.steps.begin(), c.steps.end(), [](const Step& s) {
        return s.turning && s.turning->positions == 0 && s.turning->rate != 0;
      });
  drawn.name = turning           ? "turning on the motor"
               : drawn.turns > 0 ? times(drawn.turns)
                                 : "";
  all.push_back(drawn);
  if (!plain(c)) return all;

  Step still = c.steps.front();
  still.duration = {1, 0};
  still.motion = {};
  still.turning.reset();
  const auto add = [&](const std::vector<mesh::Motion>& motions) {
    PlanSchedule s;
    s.turns = static_cast<int>(motions.size()) - 1;
    if (s.turns > most) return;
    s.name = s.turns > 0 ? times(s.turns) : "";
    for (const mesh::Motion& m : motions) {
      s.steps.push_back(still);
      s.steps.back().motion = m;
    }
    all.push_back(std::move(s));
  };
  if (c.steps.size() > 1 || c.steps.front().turning ||
      !(c.steps.front().motion == mesh::Motion{}))
    add({{}});
  if (c.section.cut == mesh::Cut::axisymmetric) return all;
  const double pi = std::numbers::pi;
  // The clip stays where it is, and holds the part by its other end.
  if (c.plan.move_clip) {
    add({{false, 0}, {false, pi}});
    if (all.back().turns == 1)
      all.back().name = "hung by its other end at half time";
  }
  if (c.section.cut == mesh::Cut::side) {
    add({{false, 0}, {true, 0}});
    // Upside down as well: each way that a wire through either end allows.
    if (c.clips.empty() && c.plan.most_turns)
      add({{false, 0}, {true, 0}, {false, pi}, {true, pi}});
    return all;
  }
  if (is_round(c) && !c.rack) return all;
  for (int n : {2, 3, 4, 6}) {
    std::vector<mesh::Motion> around;
    for (int k = 0; k < n; ++k) around.push_back({false, 2 * pi * k / n});
    add(around);
  }
  return all;
}

}  // namespace thinspot::solver
