#include "io/library_solutions.hpp"

#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/library_list.hpp"
#include "io/nearest.hpp"
#include "io/phrases.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

constexpr Limits kContent{Dimension::mass_density, "0 g/l", "2000 g/l"};
constexpr Limits kTemperature{Dimension::temperature, "-20 degC", "110 degC"};
constexpr Limits kConductivity{Dimension::conductivity, "1e-6 S/m", "1000 S/m"};
constexpr Limits kShare{Dimension::fraction, "0 %", "100 %"};
constexpr Limits kSlope{Dimension::area_resistance, "0 ohm cm2", "1e6 ohm cm2"};
constexpr Limits kDensity{Dimension::current_density, "1e-6 A/dm2",
                          "10000 A/dm2"};

const std::vector<KeyInfo>& keys() {
  static const std::vector<KeyInfo> all{
      {"name", Form::name, {}, true},
      {"spellings", Form::texts},
      {"metal", Form::text, {}, true},
      {"composition", Form::table, kContent},
      {"metal_content", Form::quantity, kContent},
      {"composition_source", Form::text, {}, true},
      {"temperature", Form::value, kTemperature, true},
      {"temperatures", Form::value_pair, kTemperature, true},
      {"conductivity", Form::quantity, kConductivity, true},
      {"conductivity_source", Form::text, {}, true},
      {"per_degree", Form::quantity, kShare, true},
      {"efficiency", Form::quantity, kShare, true},
      {"efficiency_source", Form::text, {}, true},
      {"polarization_resistance", Form::quantity, kSlope, true},
      {"polarization_at", Form::value, kDensity, true},
      {"polarization_source", Form::text, {}, true},
      {"usual_range", Form::value_pair, kDensity, true},
      {"stirred_range", Form::value_pair, kDensity, true},
      {"range_source", Form::text, {}, true},
      {"anode_limit", Form::quantity, kDensity},
      {"anode_source", Form::text},
      {"contains", Form::texts, {}, true},
      {"licensed", Form::flag},
      {"notes", Form::text, {}, true},
  };
  return all;
}

void read_composition(TableReader& t, SolutionEntry& entry) {
  KeyInfo each{"", Form::quantity, kContent};
  TableReader inner = t.free_table("composition", each);
  for (const std::string& name : inner.names())
    if (const auto amount = inner.quantity(name))
      entry.composition.emplace_back(name, *amount);
  entry.metal_content = t.quantity("metal_content");
  if (entry.composition.empty() && !entry.metal_content)
    t.missing("composition", "give it, or metal_content");
}

SolutionEntry read_entry(TableReader& t) {
  SolutionEntry e;
  e.name = t.text("name").value_or("");
  e.spellings = t.texts("spellings").value_or(e.spellings);
  e.metal = t.text("metal").value_or("");
  read_composition(t, e);
  e.composition_source = t.text("composition_source").value_or("");
  e.temperature = t.value("temperature").value_or(e.temperature);
  e.temperatures = t.value_pair("temperatures").value_or(e.temperatures);
  e.conductivity = t.quantity("conductivity").value_or(e.conductivity);
  e.conductivity_source = t.text("conductivity_source").value_or("");
  e.per_kelvin = t.quantity("per_degree").value_or(e.per_kelvin);
  e.efficiency = t.quantity("efficiency").value_or(e.efficiency);
  e.efficiency_source = t.text("efficiency_source").value_or("");
  e.polarization =
      t.quantity("polarization_resistance").value_or(e.polarization);
  e.polarization_at = t.value("polarization_at").value_or(0);
  e.polarization_source = t.text("polarization_source").value_or("");
  e.usual = t.value_pair("usual_range").value_or(e.usual);
  e.stirred = t.value_pair("stirred_range").value_or(e.stirred);
  e.range_source = t.text("range_source").value_or("");
  e.anode_limit = t.quantity("anode_limit");
  e.anode_source = t.text("anode_source").value_or("");
  if (e.anode_limit && e.anode_source.empty())
    t.missing("anode_source", "say where the limit comes from");
  e.contains = t.texts("contains").value_or(e.contains);
  e.licensed = t.flag("licensed").value_or(false);
  e.notes = t.text("notes").value_or("");
  return e;
}

}  // namespace

std::vector<SolutionEntry> read_solutions(const std::filesystem::path& folder) {
  std::vector<SolutionEntry> all;
  read_library_list(folder / "solutions.toml", "solution", keys(),
                    [&](TableReader& t) { all.push_back(read_entry(t)); });
  return all;
}

const std::vector<SolutionEntry>& library_solutions() {
  static const std::vector<SolutionEntry> all =
      read_solutions(library_folder());
  return all;
}

const SolutionEntry* find_solution(const std::vector<SolutionEntry>& all,
                                   const std::string& name) {
  const std::string wanted = ware_name(name).name;
  for (const SolutionEntry& e : all) {
    if (ware_name(e.name).name == wanted) return &e;
    for (const std::string& spelling : e.spellings)
      if (ware_name(spelling).name == wanted) return &e;
  }
  return nullptr;
}

std::string solution_hint(const std::vector<SolutionEntry>& all,
                          const std::string& name) {
  std::vector<std::string> names, spellings;
  for (const SolutionEntry& e : all) {
    names.push_back(e.name);
    spellings.push_back(e.name);
    spellings.insert(spellings.end(), e.spellings.begin(), e.spellings.end());
  }
  const auto near = nearest(name, spellings);
  return near ? fmt::format("is \"{}\" meant?", *near)
              : "it has " + with_or(names);
}

}  // namespace thinspot::io
