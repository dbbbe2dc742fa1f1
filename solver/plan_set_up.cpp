#include "solver/plan_set_up.hpp"

#include "mesh/errors.hpp"
#include "solver/plan_figures.hpp"
#include "solver/plan_shares.hpp"
#include "solver/settings.hpp"
#include "solver/simulate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace thinspot::solver {

namespace {

/// What a knob can be set to, downwards: a hundredth of what it is set to, in
/// tenths, fifths or halves of a power of ten.
double settable(double value) {
  if (!(value > 0)) return value;
  const double power = std::pow(10, std::floor(std::log10(value)) - 1);
  const double digits = value / power;  // 10 to 100
  const double step = digits < 20 ? 0.5 : 1;
  return std::floor(digits / step * (1 + 1e-9)) * step * power;
}

/// Every supply's setting times the factor, as a knob has it.
void turn_knobs(Case& c, double factor) {
  constexpr double same = 0.01;
  if (std::abs(factor - 1) < same) return;
  for_each_setting(c, [&](Quantity& setting) {
    setting.value = settable(setting.value * factor);
  });
}

/// The next stretch of time that a clock tells, not below [s].
double clock_time(double seconds) {
  const double step = seconds < 600 ? 10 : 60;
  return std::ceil(seconds / step * (1 - 1e-9)) * step;
}

double on_ruler(const PlanVariable& v, double value) {
  if (std::abs(value - v.drawn) < v.step) return v.drawn;
  const double whole = std::round(value / v.step) * v.step;
  if (whole < v.low) return std::ceil(v.low / v.step) * v.step;
  if (whole > v.high) return std::floor(v.high / v.step) * v.step;
  return whole;
}

/// Of the steps' time, what is so much less than they last that they are set
/// once more.
constexpr double kOverlong = 0.95;

/// What nobody can tell from the best, of the objective.
constexpr double kAsGood = 0.02;

/// Asks for the objective at places.
using Ask = std::function<double(const std::vector<double>&)>;

/// Leaves where they are drawn, or alike, what gains next to nothing elsewhere:
/// a search wanders where it is flat.
std::vector<double> tidied(const PlanStructure& s, std::vector<double> at,
                           const Ask& ask) {
  const double best = ask(at);
  const auto take = [&](const std::vector<double>& other) {
    if (other != at && ask(other) <= (1 + kAsGood) * best) at = other;
  };
  std::vector<double> still;
  for (const PlanVariable& v : s.variables) still.push_back(v.drawn);
  take(still);
  if (at == still) return at;
  for (std::size_t k = 0; k < at.size(); ++k) {
    std::vector<double> other = at;
    other[k] = still[k];
    take(other);
  }
  for (std::size_t k = 0; k < at.size(); ++k)
    for (std::size_t j = k + 1; j < at.size(); ++j) {
      const PlanVariable &a = s.variables[k], &b = s.variables[j];
      if (!a.key.ends_with(".gap") || !b.key.ends_with(".gap")) continue;
      std::vector<double> other = at;
      const double middle = (at[k] + at[j]) / 2;
      if (middle < std::max(a.low, b.low) || middle > std::min(a.high, b.high))
        continue;
      other[k] = other[j] = on_ruler(a, middle);
      take(other);
    }
  return at;
}

const char* counted(std::size_t n) {
  const char* const words[] = {"no anode", "one anode", "two anodes",
                               "three anodes", "four anodes"};
  return n < std::size(words) ? words[n] : "many anodes";
}

}  // namespace

Case set_up_case(const Case& drawn, const SearchSpace& space,
                 const Found& found) {
  const PlanStructure& structure = space.structures[found.structure];
  const PlanSchedule& schedule =
      space.schedules[found.structure][found.schedule];
  const double handling = space.handling[found.structure][found.schedule];
  std::vector<double> at = found.at;
  for (std::size_t k = 0; k < at.size(); ++k)
    at[k] = on_ruler(structure.variables[k], at[k]);
  at = tidied(structure, at, [&](const std::vector<double>& places) {
    try {
      Layout there(case_at(structure, places), nullptr);
      return best_current(there, schedule.steps, handling, space.drive,
                          space.limits)
          .objective;
    } catch (const CaseError&) {
      return std::numeric_limits<double>::infinity();
    }
  });
  Case c = case_at(structure, at);
  Layout layout(c, nullptr);
  // Rounding moves the current that comes to a bound.
  const Trial t =
      best_current(layout, schedule.steps, handling, space.drive, space.limits);
  c.steps =
      schedule.drawn ? c.steps : best_shares(layout, schedule.steps, t.factor);
  turn_knobs(c, t.factor);
  Layout as_set(c, nullptr);
  const Trial final = at_current(as_set, c.steps, handling, 1, space.limits);
  c = with_time(std::move(c), final.plating);
  c.accuracy = drawn.accuracy;
  return c;
}

Case with_time(Case c, double plating) {
  const double ratio = plating / total_duration(c);
  for (Step& step : c.steps) {
    step.duration.value = clock_time(step.duration.value * ratio);
    step.duration.plus_minus = 0;
  }
  return c;
}

SetUp solved_set_up(std::string name, Case c, const Progress& progress) {
  SetUp s;
  s.name = std::move(name);
  const auto solve = [&](const Progress& stretch) {
    s.result = std::make_shared<const Result>(simulate(c, stretch));
    s.figures = plan_figures(*s.result);
  };
  solve(progress.part(0, 0.7));
  // A motor's turns, or surfaces that grow, make time count otherwise.
  const auto& target = s.result->target;
  if (target && target->time_needed &&
      (!target->met || *target->time_needed < kOverlong * total_duration(c))) {
    c = with_time(std::move(c), *target->time_needed);
    solve(progress.part(0.7, 1));
  }
  s.content = std::move(c);
  progress.at(1);
  return s;
}

std::string name_of(const PlanStructure& structure,
                    const PlanSchedule& schedule) {
  std::string name = structure.inside ? "an anode inside of the part"
                                      : counted(structure.anodes);
  if (structure.shield) name += ", with a shield";
  if (structure.thief) name += ", with a thief";
  return name + ", " + (schedule.name.empty() ? "not turned" : schedule.name);
}

}  // namespace thinspot::solver
