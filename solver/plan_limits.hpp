#pragma once

#include "solver/case.hpp"
#include "solver/layout.hpp"
#include "solver/plan_variables.hpp"

#include <optional>

namespace thinspot::solver {

/// What a set-up must keep, and what it is judged by.
struct PlanLimits {
  double target = 0;   ///< thickness [m]
  double densest = 0;  ///< no place above it [A/m2]; 0: no bound is known
  double mean_low = 0, mean_high = 0;  ///< of the part; 0: none [A/m2]
  std::optional<double> current;       ///< that the adapter is rated for [A]
  std::optional<double> longest;       ///< at the bench [s]
  PlanGoal goal = PlanGoal::time;
};

/// Of the density at which it burns, what a plan goes up to: the rest is for
/// what is not known of the solution. Common practice, no source.
inline constexpr double kShareOfBurning = 0.9;

/// @throws InputError where no thickness is wanted.
PlanLimits plan_limits(const Case& c);

/// Of a trial or of a plan's figures, what the goal counts: less is better.
template <class Figures>
double of_goal(const Figures& f, PlanGoal goal) {
  switch (goal) {
    case PlanGoal::evenness: return f.evenness;
    case PlanGoal::metal: return f.metal;
    case PlanGoal::time: break;
  }
  return f.bench;
}

/// A layout and schedule at the current that serves the goal best.
struct Trial {
  double factor = 1;     ///< of every supply's setting
  double plating = 0;    ///< [s]
  double bench = 0;      ///< [s]
  double evenness = 0;   ///< largest over least
  double metal = 0;      ///< [kg]
  double objective = 0;  ///< less is better; comparable within one plan
  double excess = 0;     ///< by which share it breaks what it must keep; 0
  Yield yield;
};

/// @param handling  that the schedule takes [s]
/// @param start     factor that the search begins with
Trial best_current(Layout& layout, const std::vector<Step>& steps,
                   double handling, const DriveRange& range,
                   const PlanLimits& limits, double start = 1);

/// The same at a given current.
Trial at_current(Layout& layout, const std::vector<Step>& steps,
                 double handling, double factor, const PlanLimits& limits);

/// The largest factor of the range that breaks nothing.
double most_current(Layout& layout, const std::vector<Step>& steps,
                    const DriveRange& range, const PlanLimits& limits,
                    double start = 1);

}  // namespace thinspot::solver
