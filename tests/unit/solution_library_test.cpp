// Every entry of the library of solutions holds what it must.
#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/library_solutions.hpp"
#include "io/recipe.hpp"
#include "solver/mixture.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <string>

using namespace thinspot;

namespace {

const std::vector<io::SolutionEntry>& entries() {
  static const auto all = io::read_solutions(io::library_folder());
  return all;
}

const std::vector<solver::Compound>& compounds() {
  static const auto all = io::read_compounds(io::library_folder());
  return all;
}

bool contains(const io::SolutionEntry& e, const std::string& tag) {
  return std::find(e.contains.begin(), e.contains.end(), tag) !=
         e.contains.end();
}

}  // namespace

TEST_CASE("The solutions that a bench asks for are there", "[library]") {
  for (const char* name :
       {"acid copper", "high-throw acid copper", "plain copper sulfate",
        "Watts nickel", "nickel sulfamate", "nickel acetate",
        "acid chloride zinc", "acid sulfate zinc", "alkaline non-cyanide zinc",
        "acid tin", "silver", "gold"})
    CHECK(io::find_solution(entries(), name));
  CHECK(io::find_solution(entries(), "Copper sulphate without acid"));
  CHECK_FALSE(io::find_solution(entries(), "unheard of"));
}

TEST_CASE("Every number of a solution has a range and a source", "[library]") {
  const auto metals = io::read_metals(io::library_folder());
  for (const io::SolutionEntry& e : entries()) {
    CAPTURE(e.name);
    CHECK(std::any_of(metals.begin(), metals.end(),
                      [&](const auto& m) { return m.name == e.metal; }));
    for (const auto* q :
         {&e.conductivity, &e.per_kelvin, &e.efficiency, &e.polarization}) {
      CHECK(q->value > 0);
      CHECK(q->plus_minus > 0);
      CHECK(q->plus_minus < q->value);
    }
    CHECK(e.efficiency.value + e.efficiency.plus_minus <= 1 + 1e-12);
    for (const auto& [name, content] : e.composition)
      CHECK(content.plus_minus > 0);
    for (const auto& range : {e.usual, e.stirred, e.temperatures})
      CHECK(range[0] < range[1]);
    CHECK(e.temperatures[0] <= e.temperature);
    CHECK(e.temperature <= e.temperatures[1]);
    CHECK(e.stirred[1] >= e.usual[1]);
    if (e.anode_limit) CHECK(e.anode_limit->plus_minus > 0);
    for (const auto* source :
         {&e.composition_source, &e.conductivity_source, &e.efficiency_source,
          &e.polarization_source, &e.range_source, &e.notes})
      CHECK_FALSE(source->empty());
    CHECK(contains(e, e.metal));
  }
}

TEST_CASE("What holds cyanide is data only and has no recipe", "[library]") {
  int licensed = 0;
  for (const io::SolutionEntry& e : entries()) {
    CAPTURE(e.name);
    CHECK(e.licensed == contains(e, "cyanide"));
    CHECK(e.composition.empty() == e.licensed);
    licensed += e.licensed ? 1 : 0;
  }
  CHECK(licensed == 2);
}

TEST_CASE(
    "Compositions are of known substances, and conduct as the entries "
    "say",
    "[library]") {
  for (const io::SolutionEntry& e : entries()) {
    if (e.composition.empty()) continue;
    const io::Recipe recipe = io::recipe_of(e.composition, compounds(), 1e-3);
    REQUIRE(recipe.doses.size() == e.composition.size());
    const auto found =
        solver::conductivity_of(recipe.doses, compounds(), e.temperature);
    CAPTURE(e.name, found.conductivity.value, found.conductivity.plus_minus,
            e.conductivity.value);
    // Both are 95 % ranges of one thing: they meet.
    CHECK(std::abs(found.conductivity.value - e.conductivity.value) <=
          found.conductivity.plus_minus + e.conductivity.plus_minus);
    bool metal = false;
    std::set<std::string> tags;
    for (const solver::Dose& d : recipe.doses) {
      metal = metal || d.compound->metal == e.metal;
      tags.insert(d.compound->contains.begin(), d.compound->contains.end());
    }
    CHECK(metal);
    for (const std::string& tag : tags)
      if (tag != "chloride") CHECK(contains(e, tag));
  }
}

TEST_CASE("Substances are sound", "[library]") {
  std::set<std::string> names;
  for (const std::string& name : io::ware_names(compounds())) {
    CAPTURE(name);
    CHECK(names.insert(io::ware_name(name).name).second);
  }
  for (const solver::Compound& c : compounds()) {
    CAPTURE(c.name);
    CHECK_FALSE(c.source.empty());
    CHECK(c.molar_mass > 0);
    CHECK(solver::dry_molar_mass(c) > 0.5 * c.molar_mass - 0.01);
    CHECK(std::is_sorted(c.table.mass_fraction.begin(),
                         c.table.mass_fraction.end()));
    CHECK(std::is_sorted(c.strengths.begin(), c.strengths.end()));
    if (!c.table.conductivity.empty()) CHECK_FALSE(c.table.source.empty());
    if (c.like.empty()) continue;
    const solver::Compound* like = solver::find_compound(compounds(), c.like);
    REQUIRE(like);
    CHECK_FALSE(like->table.conductivity.empty());
  }
}
