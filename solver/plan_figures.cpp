#include "solver/plan_figures.hpp"

#include "solver/deposit.hpp"
#include "solver/preparation.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::solver {

namespace {

/// To etch, rinse and go back in where a metal does not plate onto itself once
/// the current was off [s]. Common practice, no source.
constexpr double kReactivation = 300;

/// Of what all cathodes take up in all steps [kg].
double metal_of(const Result& r) {
  const Solution& s = r.used.solution;
  double charge = 0;
  for (const StepResult& step : r.steps)
    charge += step.cell.current * step.duration;
  return charge * mass_per_charge(s.metal) * s.efficiency.value;
}

void find_broken(const Result& r, PlanFigures& f) {
  const PlanWishes& wishes = r.used.plan;
  if (!r.appraisal.burn.spans.empty()) {
    const BurnSpan& worst = r.appraisal.burn.spans.front();
    f.breaks.push_back(
        fmt::format("it likely {} {}, at {:.2g} A/dm2",
                    worst.kind == Burn::dull ? "comes out dull" : "burns",
                    worst.where, worst.peak / 100));
  }
  for (const AnodeHealth& anode : r.appraisal.anodes.each)
    if (anode.state == AnodeState::likely_passive)
      f.breaks.push_back("the anode " + anode.name + " likely passivates");
  if (r.target && !r.target->time_needed)
    f.breaks.push_back("a place that counts gets no coating at all");
  if (wishes.longest && f.bench > *wishes.longest * (1 + 1e-9))
    f.breaks.push_back(
        fmt::format("it takes {:.0f} min, longer than wanted", f.bench / 60));
  if (wishes.most_turns && f.turns > *wishes.most_turns)
    f.breaks.push_back(fmt::format("it is handled {} times", f.turns));
}

}  // namespace

int handlings(const Case& c) {
  int sum = 0;
  for (const Interruption& i : interruptions_in(c)) sum += std::max(1, i.times);
  return sum;
}

double handling_time(const Case& c) {
  const int count = handlings(c);
  if (count == 0) return 0;
  const auto preparation = prepare(c);
  const bool again = preparation && preparation->reactivate;
  return count * (c.plan.handling + (again ? kReactivation : 0));
}

PlanFigures plan_figures(const Result& r) {
  PlanFigures f;
  const double drawn = total_duration(r.used);
  double area = 0, least = r.parts.front().thickness.value.min;
  for (const PartResult& part : r.parts) {
    f.mean += part.thickness.value.mean * part.area;
    area += part.area;
    f.largest = std::max(f.largest, part.thickness.value.max);
    least = std::min(least, part.thickness.value.min);
  }
  f.mean /= area;
  f.least = r.target ? r.target->least : least;
  for (const StepResult& step : r.steps)
    f.densest = std::max(f.densest, step.max_current_density);
  f.current = r.steps.front().cell.current;
  f.voltage = r.steps.front().cell.voltage;
  f.turns = handlings(r.used);
  f.plating =
      r.target && r.target->time_needed ? *r.target->time_needed : drawn;
  const double longer = f.plating / drawn;
  for (double* thickness : {&f.least, &f.mean, &f.largest})
    *thickness *= longer;
  f.evenness = f.least > 0 ? f.largest / f.least : 0;
  f.metal = metal_of(r) * longer;
  f.bench = f.plating + handling_time(r.used);
  find_broken(r, f);
  return f;
}

}  // namespace thinspot::solver
