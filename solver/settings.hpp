#pragma once

#include "solver/case.hpp"

namespace thinspot::solver {

/// What a supply is set to.
/// @param visit  called with the Quantity, of whatever kind it is
template <class Visit>
void for_each_setting(Supply& s, const Visit& visit) {
  for (auto* setting : {&s.current, &s.current_density, &s.voltage})
    if (*setting) visit(**setting);
}

/// Of every supply, also those that steps have of their own.
template <class Visit>
void for_each_setting(Case& c, const Visit& visit) {
  for_each_setting(c.supply, visit);
  for (Rectifier& r : c.rectifiers) for_each_setting(r.supply, visit);
  for (Step& step : c.steps) {
    if (step.supply) for_each_setting(*step.supply, visit);
    if (!step.rectifiers) continue;
    for (Supply& s : *step.rectifiers) for_each_setting(s, visit);
  }
}

}  // namespace thinspot::solver
