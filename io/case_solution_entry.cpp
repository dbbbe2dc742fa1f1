#include "io/case_solution.hpp"
#include "io/library_compounds.hpp"
#include "io/trade_units.hpp"
#include "solver/acidity.hpp"
#include "solver/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace thinspot::io {

namespace {

/// Says what the entry has in place of a key of the case, unless it is there.
void assume(CaseReading& r, const std::string& key, const std::string& value,
            const std::string& entry, const std::string& source) {
  const Node* table = r.root.find("solution");
  if (table && table->find(key)) return;
  r.content.assumed.push_back(
      {"solution." + key, value, fmt::format("{}: {}", entry, source)});
}

std::string percent_text(const solver::Quantity& share) {
  return fmt::format("{:.3g} % +- {:.2g} %", 100 * share.value,
                     100 * share.plus_minus);
}

void take_composition(CaseReading& r, const SolutionEntry& e,
                      const std::vector<solver::Compound>& compounds) {
  solver::Solution& s = r.content.solution;
  const Recipe recipe = recipe_of(e.composition, compounds, 1);
  s.made_of.clear();
  double metal = 0;
  for (const solver::Dose& d : recipe.doses) {
    s.made_of.push_back({d.compound->name, d.concentration});
    if (d.compound->metal == e.metal) metal += d.concentration;
  }
  if (!recipe.doses.empty()) s.acidity = solver::acidity_of(recipe.doses);
  r.carried_by_metal = solver::transference(recipe.doses, e.metal);
  if (e.metal_content) metal = e.metal_content->value / s.metal.molar_mass;
  if (metal <= 0) return;
  s.metal_concentration = metal;
  note_source(s, "metal_concentration", e.composition_source,
              "middle of the usual range");
}

void take_usual(solver::Solution& s, const SolutionEntry& e) {
  const bool moves = s.stirring == "strong" || s.stirring == "rotating";
  const auto& range = moves ? e.stirred : e.usual;
  s.usual = {range[0], range[1], e.name + ", " + e.range_source, false};
}

}  // namespace

void note_source(solver::Solution& solution, const std::string& key,
                 const std::string& source, const std::string& sure) {
  std::erase_if(solution.sources,
                [&](const solver::Provenance& p) { return p.key == key; });
  solution.sources.push_back({key, source, sure});
}

std::string conductivity_text(const solver::Quantity& conductivity) {
  return fmt::format("{:.3g} S/m +- {:.2g} S/m", conductivity.value,
                     conductivity.plus_minus);
}

solver::Quantity at_temperature(const solver::Quantity& conductivity,
                                const solver::Quantity& per_kelvin,
                                double kelvins_warmer) {
  const double value =
      conductivity.value * std::exp(per_kelvin.value * kelvins_warmer);
  const double spread = std::hypot(conductivity.plus_minus / conductivity.value,
                                   per_kelvin.plus_minus * kelvins_warmer);
  // A conductivity is never nothing.
  return {value, value * std::min(spread, 0.95)};
}

void take_entry(CaseReading& r, const SolutionEntry& e,
                const std::vector<solver::Compound>& compounds) {
  solver::Solution& s = r.content.solution;
  r.entry = e;
  s.entry = s.name = e.name;
  s.contains = e.contains;
  take_composition(r, e, compounds);
  s.conductivity_per_kelvin = e.per_kelvin;
  const double warmer = s.temperature - e.temperature;
  s.conductivity = at_temperature(e.conductivity, e.per_kelvin, warmer);
  std::string source = e.conductivity_source;
  if (warmer != 0)
    source += fmt::format(", at {:.3g} degC; carried from there by {} a kelvin",
                          to_deg_c(e.temperature), percent_text(e.per_kelvin));
  note_source(s, "conductivity", source, "usual value of such solutions");
  assume(r, "conductivity", conductivity_text(s.conductivity), e.name, source);
  s.efficiency = e.efficiency;
  note_source(s, "efficiency", e.efficiency_source, "usual range");
  assume(r, "efficiency", percent_text(e.efficiency), e.name,
         e.efficiency_source);
  take_usual(s, e);
  note_source(s, "usual_range", e.range_source, "usual range");
  if (e.anode_limit) {
    s.anode_limit = e.anode_limit;
    note_source(s, "anode_limit", e.anode_source, "usual range");
  }
  if (s.temperature < e.temperatures[0] || s.temperature > e.temperatures[1])
    r.content.notes.push_back(fmt::format(
        "{} is used at {:.3g} to {:.3g} °C; at {:.3g} °C it may behave "
        "otherwise.",
        e.name, to_deg_c(e.temperatures[0]), to_deg_c(e.temperatures[1]),
        to_deg_c(s.temperature)));
  r.content.notes.push_back(e.name + ": " + e.notes);
}

}  // namespace thinspot::io
