#include "io/todo_words.hpp"

#include "io/copies.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

using solver::Result;
using solver::StepResult;

/// Edges fill long before a spot that needs several times as long.
constexpr double kPoorWay = 3;
/// Currents that differ by less are one setting of the knob.
constexpr double kAlike = 1e-3;

std::string where_it_burns(const Result& result) {
  double worst = 0;
  for (const StepResult& step : result.steps)
    if (step.burning) worst = std::max(worst, step.max_current_density);
  return fmt::format(
      "Lower the current: the densest spot takes {} A/dm², where the coating "
      "burns.",
      digits(to_a_dm2(worst)));
}

std::string as_planned(const Result& result, double set) {
  const double last = result.cell.current;
  const bool alike = std::all_of(
      result.steps.begin(), result.steps.end(), [&](const StepResult& step) {
        return std::abs(step.cell.current - last) <= kAlike * last;
      });
  if (!alike)
    return fmt::format("Plate as planned, for {} in all.", duration_text(set));
  return fmt::format("Plate as planned: {} A for {}.", digits(last),
                     duration_text(set));
}

std::string longer(const Result& result, double needed, double set) {
  if (needed > kPoorWay * set)
    return fmt::format(
        "More time alone is a poor way, it would take about {}: bring an anode "
        "nearer to the thin spot, or turn the part.",
        time_estimate(needed));
  const double heaviest =
      result.parts[heaviest_spot_on(result)].thickness.value.max;
  return fmt::format(
      "Plate for about {} in place of {} at the same current; the heaviest "
      "spot then grows to about {}.",
      time_estimate(needed), duration_text(set),
      micrometres(heaviest * needed / set, 2));
}

std::string sentence(const Result& result) {
  if (std::any_of(result.steps.begin(), result.steps.end(),
                  [](const StepResult& step) { return step.burning; }))
    return where_it_burns(result);
  if (!result.target)
    return "Put a target thickness into the case file to have the coating "
           "judged.";
  const double set = total_duration(result.used);
  if (result.target->met) return as_planned(result, set);
  if (!result.target->time_needed)
    return "More time alone will not do: bring an anode nearer to the thin "
           "spot, or turn the part.";
  return longer(result, *result.target->time_needed, set);
}

}  // namespace

std::vector<std::string> todo_words(const Result& result) {
  if (result.layers.empty()) return {sentence(result)};
  std::vector<std::string> lines;
  for (const solver::LayerResult& layer : result.layers)
    lines.push_back(capital(layer.name) + ": " + sentence(layer.own));
  return lines;
}

}  // namespace thinspot::io
