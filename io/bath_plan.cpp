#include "io/bath_plan.hpp"

#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/library_solutions.hpp"
#include "io/quote.hpp"
#include "io/recipe.hpp"
#include "io/trade_units.hpp"
#include "mesh/errors.hpp"
#include "solver/acidity.hpp"
#include "solver/bath.hpp"
#include "solver/inspect.hpp"

#include <algorithm>
#include <map>

namespace thinspot::io {

namespace {

/// Acids go into the water first, then what they help to dissolve.
void add_make_up(BathPlan& plan, const std::vector<solver::Compound>& all) {
  if (!plan.volume || plan.licensed) return;
  for (const solver::Substance& s : plan.solution.made_of) {
    const solver::Compound* c = solver::find_compound(all, s.name);
    if (!c) continue;
    MakeUp line{c->name,
                s.concentration * *plan.volume * c->molar_mass,
                {},
                1,
                c->acidity == solver::Acidity::strong_acid};
    if (!c->strengths.empty()) {
      line.strength = c->strengths.back();
      line.poured =
          line.mass / (line.strength * *solver::density_at(*c, line.strength));
      line.acid = true;
    }
    plan.make_up.push_back(line);
  }
  std::stable_sort(
      plan.make_up.begin(), plan.make_up.end(),
      [](const MakeUp& a, const MakeUp& b) { return a.acid && !b.acid; });
}

void add_contents(BathPlan& plan, const std::vector<solver::Compound>& all) {
  const solver::Solution& s = plan.solution;
  if (s.metal_concentration && plan.volume)
    plan.metal =
        solver::metal_in(s.metal, *s.metal_concentration, *plan.volume);
  double most = 0;  // the salt that brings most of it
  for (const solver::Substance& part : s.made_of) {
    const solver::Compound* c = solver::find_compound(all, part.name);
    if (!c || c->metal != s.metal.name || plan.licensed ||
        part.concentration <= most)
      continue;
    most = part.concentration;
    const double atoms =
        solver::metal_moved(s.metal, kHour, s.efficiency).value /
        s.metal.molar_mass;
    plan.replenish = MakeUp{c->name, atoms * c->molar_mass, {}, 1, false};
  }
}

double charge_of(const solver::Case& c, const solver::CellEstimate& cell) {
  double charge = 0;
  for (const solver::Step& step : c.steps) {
    double current = cell.current;
    if (step.supply && step.supply->current)
      current = step.supply->current->value;
    else if (step.supply && step.supply->current_density && cell.density > 0)
      current *= step.supply->current_density->value / cell.density;
    charge += current * step.duration.value;
  }
  return charge;
}

/// Soluble anodes with what they weigh, where the section tells their depth.
void add_anodes(BathPlan& plan, const solver::Case& c,
                const solver::Inspection& seen) {
  std::map<std::string, solver::Metal> metals;
  for (const solver::Metal& m : library_metals()) metals.emplace(m.name, m);
  double all_area = 0;
  for (const solver::Anode& a : c.anodes)
    if (a.soluble)
      all_area += mesh::perimeter(seen.section.solids[a.solid].outline);
  for (const solver::Anode& a : c.anodes) {
    plan.gives_back = plan.gives_back || a.soluble;
    const auto metal = metals.find(a.metal);
    if (!a.soluble || metal == metals.end()) continue;
    if (seen.section.cut == mesh::Cut::axisymmetric) continue;
    const mesh::Outline& outline = seen.section.solids[a.solid].outline;
    // Anodes share the current about as they share the surface.
    const double current =
        seen.cell.current * mesh::perimeter(outline) / all_area;
    const double mass =
        mesh::area(outline) * seen.depth * metal->second.density;
    plan.anodes.push_back(
        {a.name, mass, solver::anode_life(metal->second, mass, current)});
  }
}

}  // namespace

BathPlan bath_of_case(const solver::Case& c, std::optional<double> volume) {
  const solver::Inspection seen = solver::inspect(c);
  BathPlan plan;
  plan.solution = c.solution;
  plan.volume = volume ? volume : c.solution.volume;
  plan.licensed =
      std::find(c.solution.contains.begin(), c.solution.contains.end(),
                "cyanide") != c.solution.contains.end();
  const auto& compounds = library_compounds();
  add_make_up(plan, compounds);
  add_contents(plan, compounds);
  BathRun run;
  run.charge = charge_of(c, seen.cell);
  run.taken =
      solver::metal_moved(c.solution.metal, run.charge, c.solution.efficiency);
  run.rough = seen.cell.by_voltage;
  plan.run = run;
  add_anodes(plan, c, seen);
  if (plan.metal && !plan.gives_back && run.taken.value > 0)
    plan.runs =
        solver::runs_down_to(solver::kTopUpAt, *plan.metal, run.taken.value);
  return plan;
}

BathPlan bath_of_entry(const std::string& use, std::optional<double> volume) {
  const auto& entries = library_solutions();
  const SolutionEntry* e = find_solution(entries, use);
  if (!e)
    throw InputError("--solution",
                     in_quotes(use) + " is not in the library of solutions",
                     solution_hint(entries, use));
  const auto& compounds = library_compounds();
  BathPlan plan;
  plan.volume = volume;
  plan.licensed = e->licensed;
  solver::Solution& s = plan.solution;
  s.name = s.entry = e->name;
  s.temperature = e->temperature;
  s.conductivity = e->conductivity;
  s.sources = {{"conductivity", e->conductivity_source,
                "usual value of such solutions"}};
  s.efficiency = e->efficiency;
  s.contains = e->contains;
  s.usual =
      solver::UsualRange{e->usual[0], e->usual[1], e->range_source, false};
  for (const solver::Metal& m : library_metals())
    if (m.name == e->metal) s.metal = m;
  double metal = 0;
  const Recipe recipe = recipe_of(e->composition, compounds, 1);
  for (const solver::Dose& d : recipe.doses) {
    s.made_of.push_back({d.compound->name, d.concentration});
    if (d.compound->metal == e->metal) metal += d.concentration;
  }
  if (!recipe.doses.empty()) s.acidity = solver::acidity_of(recipe.doses);
  if (e->metal_content) metal = e->metal_content->value / s.metal.molar_mass;
  s.metal_concentration = metal;
  add_make_up(plan, compounds);
  add_contents(plan, compounds);
  return plan;
}

}  // namespace thinspot::io
