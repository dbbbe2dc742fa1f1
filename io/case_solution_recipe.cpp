#include "io/case_solution.hpp"
#include "mesh/errors.hpp"
#include "solver/acidity.hpp"
#include "solver/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

std::string in_words(solver::Trust trust) {
  switch (trust) {
    case solver::Trust::measured: return "measured data of this substance";
    case solver::Trust::analogy: return "measured data of a similar substance";
    case solver::Trust::mixed: return "rule of mixtures, fairly sure";
    case solver::Trust::guess: break;
  }
  return "wide guess: measure it";
}

void take_conductivity(CaseReading& r, TableReader& t, const Recipe& recipe,
                       const std::vector<solver::Compound>& compounds) {
  solver::Solution& s = r.content.solution;
  try {
    const solver::MixtureConductivity found =
        solver::conductivity_of(recipe.doses, compounds, s.temperature);
    const std::string sure = in_words(found.trust);
    s.conductivity = found.conductivity;
    s.conductivity_per_kelvin = found.per_kelvin;
    note_source(s, "conductivity", found.source, sure);
    if (t.has("conductivity")) return;
    r.content.assumed.push_back(
        {"solution.conductivity", conductivity_text(s.conductivity),
         fmt::format("reckoned from made_of, {}; {}", sure, found.source)});
    if (found.trust == solver::Trust::guess)
      r.content.notes.push_back(two_plate_recipe());
  } catch (const InputError& error) {
    if (t.has("conductivity")) return;
    const Problem& p = error.problems().front();
    t.wrong("made_of", p.wrong, p.mend);
  }
}

}  // namespace

std::string two_plate_recipe() {
  return "The conductivity is a wide guess. To measure it, hang two clean "
         "plates of the anode's metal in a trough that they fill from wall to "
         "wall and floor to surface, pass a small current, and read the volts "
         "at two gaps: conductivity = (gap 2 - gap 1) x current / (area x "
         "(volts 2 - volts 1)). Give it as conductivity.";
}

void take_recipe(CaseReading& r, TableReader& t, const Recipe& recipe,
                 const std::vector<solver::Compound>& compounds) {
  solver::Solution& s = r.content.solution;
  s.volume = recipe.volume;
  s.made_of.clear();
  double metal = 0;
  for (const solver::Dose& d : recipe.doses) {
    s.made_of.push_back({d.compound->name, d.concentration});
    if (d.compound->metal == s.metal.name) metal += d.concentration;
    for (const std::string& tag : d.compound->contains)
      if (std::find(s.contains.begin(), s.contains.end(), tag) ==
          s.contains.end())
        s.contains.push_back(tag);
  }
  s.acidity = solver::acidity_of(recipe.doses);
  s.metal_concentration.reset();
  if (metal > 0) {
    s.metal_concentration = metal;
    note_source(s, "metal_concentration", "made_of", "as weighed");
  } else if (!s.metal.name.empty()) {
    r.content.notes.push_back(fmt::format(
        "made_of holds no {}: whatever plates has to dissolve from an anode "
        "first.",
        s.metal.name));
  }
  r.carried_by_metal = solver::transference(recipe.doses, s.metal.name);
  for (const std::string& text : recipe.assumed)
    r.content.assumed.push_back({"solution.made_of", text, "common name"});
  r.content.notes.insert(r.content.notes.end(), recipe.notes.begin(),
                         recipe.notes.end());
  take_conductivity(r, t, recipe, compounds);
}

}  // namespace thinspot::io
