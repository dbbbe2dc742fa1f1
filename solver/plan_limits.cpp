#include "solver/plan_limits.hpp"

#include "mesh/errors.hpp"
#include "solver/burn.hpp"
#include "solver/usual_range.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// Longer than anybody plates: a place that gets next to nothing [s].
constexpr double kNever = 1e9;
/// Per share of excess, by how much the objective grows.
constexpr double kPenalty = 10;
/// Rounds in which a current is looked for that comes to a bound; each leaves
/// some hundredth of what was off, as currents are nearly proportional.
constexpr int kRounds = 4;
constexpr double kNear = 2e-3;
/// Of the time that there is, what is planned with: knobs and clocks round.
constexpr double kOfTime = 0.97;
/// Largest over least from which on a place counts as deep in a recess: more
/// than faces that look away from an only anode have.
constexpr double kDeep = 6;
/// From one current to the next less one that is tried.
constexpr double kLess = 0.8;

/// By which share of them the bounds on currents are used up.
double load(const Yield& y, const PlanLimits& limits) {
  double most = y.anode_load;
  if (limits.densest > 0) most = std::max(most, y.densest / limits.densest);
  if (limits.mean_high > 0)
    most = std::max(most, y.mean_density / limits.mean_high);
  if (limits.current) most = std::max(most, y.current / *limits.current);
  return most;
}

}  // namespace

PlanLimits plan_limits(const Case& c) {
  if (!c.target.thickness)
    throw InputError("target.thickness",
                     "is missing: a plan needs to know how thick",
                     "thickness = \"10 um\" under [target]");
  PlanLimits limits;
  limits.target = *c.target.thickness;
  if (c.target.burning_current_density)
    limits.densest = kShareOfBurning * *c.target.burning_current_density;
  else if (c.solution.limiting_current_density)
    limits.densest = kDullShare * c.solution.limiting_current_density->value;
  if (const auto range = usual_range(c)) {
    limits.mean_low = range->low;
    limits.mean_high = range->high;
  }
  if (c.supply.adapter) limits.current = c.supply.adapter->current;
  limits.longest = c.plan.longest;
  limits.goal = c.plan.goal;
  return limits;
}

Trial at_current(Layout& layout, const std::vector<Step>& steps,
                 double handling, double factor, const PlanLimits& limits) {
  Trial t;
  t.factor = factor;
  t.yield = layout.yield(steps, factor);
  const Yield& y = t.yield;
  t.plating = y.least > 0 ? std::min(kNever, limits.target / y.least) : kNever;
  t.bench = t.plating + handling;
  t.evenness = y.least > 0 ? std::min(kNever, y.largest / y.least) : kNever;
  t.metal = y.metal * t.plating;
  t.excess = std::max(0.0, load(y, limits) - 1 - kNear);
  if (limits.longest)
    t.excess += std::max(0.0, t.bench / *limits.longest - 1 - kNear);
  t.objective = of_goal(t, limits.goal) * (1 + kPenalty * t.excess);
  return t;
}

double most_current(Layout& layout, const std::vector<Step>& steps,
                    const DriveRange& range, const PlanLimits& limits,
                    double start) {
  double factor = std::clamp(start, range.low, range.high);
  for (int round = 0; round < kRounds; ++round) {
    const Yield y = layout.yield(steps, factor);
    const double used = load(y, limits);
    // Where nothing bounds it, as drawn is as good as any.
    if (!(used > 0)) return factor;
    const double next = std::clamp(factor / used, range.low, range.high);
    const bool settled = std::abs(next - factor) < kNear * factor;
    factor = next;
    if (settled) break;
  }
  return factor;
}

namespace {

/// Nothing where so little current has no working point: a voltage that is next
/// to nothing against what polarization takes.
std::optional<Trial> tried(Layout& layout, const std::vector<Step>& steps,
                           double handling, double factor,
                           const PlanLimits& limits) {
  try {
    return at_current(layout, steps, handling, factor, limits);
  } catch (const CaseError&) {
    return std::nullopt;
  }
}

}  // namespace

Trial best_current(Layout& layout, const std::vector<Step>& steps,
                   double handling, const DriveRange& range,
                   const PlanLimits& limits, double start) {
  const double most = most_current(layout, steps, range, limits, start);
  Trial quickest = at_current(layout, steps, handling, most, limits);
  // Deep inside a recess less current may bring more: what polarization then
  // takes from the edges goes there.
  const bool deep = quickest.evenness > kDeep;
  for (double less = most * kLess; deep && less >= range.low; less *= kLess) {
    const auto t = tried(layout, steps, handling, less, limits);
    if (!t || !(t->objective < (1 - kNear) * quickest.objective)) break;
    quickest = *t;
  }
  if (limits.goal == PlanGoal::time || !limits.longest) return quickest;
  // Less current is more even, as long as there is time.
  double factor = most;
  const double room = kOfTime * *limits.longest - handling;
  for (int round = 0; round < kRounds && room > 0; ++round) {
    const auto t = tried(layout, steps, handling, factor, limits);
    if (!t) return quickest;
    double next = factor * t->plating / room;
    if (limits.mean_low > 0)
      next = std::max(next, factor * limits.mean_low / t->yield.mean_density);
    next = std::clamp(next, range.low, most);
    const bool settled = std::abs(next - factor) < kNear * factor;
    factor = next;
    if (settled) break;
  }
  const auto slow = tried(layout, steps, handling, factor, limits);
  constexpr double worth = 0.01;
  const bool better =
      slow && slow->objective < (1 - worth) * quickest.objective;
  return better ? *slow : quickest;
}

}  // namespace thinspot::solver
