#include "io/case_solution.hpp"

#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/trade_units.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

/// @param name  of a metal of the library
bool set_metal(CaseReading& r, const std::string& name) {
  for (const solver::Metal& metal : library_metals())
    if (metal.name == name) {
      r.content.solution.metal = metal;
      return true;
    }
  return false;
}

void read_metal(CaseReading& r, TableReader& t) {
  const auto name = t.text("metal");
  if (!name || set_metal(r, *name)) return;
  std::vector<std::string> names;
  for (const solver::Metal& metal : library_metals())
    names.push_back(metal.name);
  const auto near = nearest(*name, names);
  t.wrong("metal", in_quotes(*name) + " is not in the library of metals",
          near ? fmt::format("is \"{}\" meant?", *near)
               : "it has " + with_or(names));
}

void assume_efficiency(CaseReading& r) {
  solver::Solution& solution = r.content.solution;
  const auto& tags = solution.contains;
  if (std::find(tags.begin(), tags.end(), "acetate") != tags.end()) {
    solution.efficiency = {0.7, 0.25};
    r.content.assumed.push_back(
        {"solution.efficiency", "70 % +- 25 %",
         "left out; weak solutions in acetic acid lose much to hydrogen, from "
         "memory: weigh a test piece"});
    return;
  }
  const bool copper = solution.metal.name == "copper";
  solution.efficiency = {1.0, copper ? 0.02 : 0.05};
  r.content.assumed.push_back(
      {"solution.efficiency", fmt::format("100 % +- {} %", copper ? 2 : 5),
       copper ? "left out; acid copper loses next to nothing to hydrogen"
              : "left out; many solutions lose some current to hydrogen, a few "
                "lose much: weigh a test piece"});
}

/// The entry that the case names; notes where there is none of that name.
std::optional<SolutionEntry> named_entry(TableReader& t) {
  const auto name = t.text("use");
  if (!name) return std::nullopt;
  const std::vector<SolutionEntry>& all = library_solutions();
  if (const SolutionEntry* found = find_solution(all, *name)) return *found;
  t.wrong("use", in_quotes(*name) + " is not in the library of solutions",
          solution_hint(all, *name));
  return std::nullopt;
}

/// What the case says itself, whatever else was taken.
void read_given(CaseReading& r, TableReader& t) {
  solver::Solution& solution = r.content.solution;
  if (const auto given = t.quantity("conductivity")) {
    solution.conductivity = *given;
    note_source(solution, "conductivity", "given", "as given");
  }
  read_efficiency(r, t);
  if (const auto given = t.quantity("limiting_current_density")) {
    solution.limiting_current_density = *given;
    note_source(solution, "limiting_current_density", "given", "as given");
  }
  if (const auto given = t.text("name")) solution.name = *given;
}

bool is_known(const solver::Solution& solution, const std::string& key) {
  return std::any_of(solution.sources.begin(), solution.sources.end(),
                     [&](const solver::Provenance& p) { return p.key == key; });
}

/// What a case without entry and recipe has to say itself.
void require_numbers(TableReader& t, bool entry, bool recipe) {
  if (t.has("use") || t.has("made_of")) return;
  if (!t.has("metal") && !entry && !recipe)
    t.missing("metal",
              "give it, as in metal = \"copper\", or use = \"acid "
              "copper\", a solution of the library");
  if (!t.has("conductivity"))
    t.missing("conductivity",
              "give it, as in conductivity = \"18 S/m\"; or say what the "
              "solution is: use = \"acid copper\", or made_of");
}

}  // namespace

void read_solution(CaseReading& r) {
  TableReader t = open_table(r, "solution");
  if (!t.present()) return;
  solver::Solution& solution = r.content.solution;
  const bool from_library = t.has("use") || t.has("made_of");
  static const std::vector<solver::Compound> none;
  const auto& compounds = from_library ? library_compounds() : none;
  const std::optional<SolutionEntry> entry = named_entry(t);
  const auto warm = t.value("temperature");
  if (warm) solution.temperature = *warm;
  if (const auto given = t.text("stirring")) solution.stirring = *given;
  if (entry) {
    set_metal(r, entry->metal);
    if (!warm) solution.temperature = entry->temperature;
  }
  read_metal(r, t);
  if (entry) {
    take_entry(r, *entry, compounds);
    if (!t.has("temperature"))
      r.content.assumed.push_back(
          {"solution.temperature",
           fmt::format("{:.3g} degC", to_deg_c(solution.temperature)),
           "left out; usual for " + entry->name});
  }
  const auto recipe = read_recipe(t, compounds, solution.temperature);
  if (recipe) {
    if (solution.metal.name.empty() && !t.has("metal")) {
      std::vector<std::string> metals;
      for (const solver::Dose& d : recipe->doses)
        if (!d.compound->metal.empty() &&
            std::find(metals.begin(), metals.end(), d.compound->metal) ==
                metals.end())
          metals.push_back(d.compound->metal);
      if (metals.size() == 1)
        set_metal(r, metals.front());
      else
        t.missing("metal", metals.empty()
                               ? "made_of holds none that plates: say which "
                                 "one does, as in metal = \"copper\""
                               : "made_of holds several: say which one "
                                 "plates, as in metal = \"" +
                                     metals.front() + "\"");
    }
    take_recipe(r, t, *recipe, compounds);
  }
  require_numbers(t, entry.has_value(), recipe.has_value());
  if (solution.name.empty()) solution.name = solution.metal.name + " solution";
  read_given(r, t);
  if (!t.has("efficiency") && !is_known(solution, "efficiency"))
    assume_efficiency(r);
}

}  // namespace thinspot::io
