#include "solver/caution_facts.hpp"

#include "mesh/lower_case.hpp"
#include "solver/base_metals.hpp"
#include "solver/substances.hpp"

#include <algorithm>

namespace thinspot::solver {

namespace {

void look_at_part(const Case& c, CautionFacts& f) {
  for (const mesh::Solid& s : c.section.solids) {
    if (s.role != mesh::Role::part) continue;
    f.coin = f.coin || s.shape == "coin";
    const auto open = s.sizes.find("open");
    const bool closed = open == s.sizes.end() || open->second == 0;
    f.hollow =
        f.hollow || (s.shape == "tube" && closed) || s.drawn.loops.size() > 1;
  }
  if (!c.base_metals) return;
  const std::string& metal = c.below.empty() ? c.part_metal : c.below.front();
  if (const BaseMetal* base = find_base(*c.base_metals, metal))
    f.part_traits.insert(base->traits.begin(), base->traits.end());
}

void look_at_supply(const Case& c, CautionFacts& f) {
  const auto look = [&](const Supply& s) {
    if (s.voltage) f.volts = std::max(f.volts, s.voltage->value);
    if (s.voltage_limit) f.volts = std::max(f.volts, *s.voltage_limit);
    if (!s.adapter) return;
    f.adapter = true;
    f.volts = std::max(f.volts, s.adapter->voltage);
  };
  look(c.supply);
  for (const Rectifier& r : c.rectifiers) look(r.supply);
  for (const Step& step : c.steps) {
    if (step.supply) look(*step.supply);
    if (!step.rectifiers) continue;
    for (const Supply& s : *step.rectifiers) look(s);
  }
}

}  // namespace

bool CautionFacts::has(const std::string& substance) const {
  return in_solution.contains(substance);
}

bool CautionFacts::plates(const std::string& name) const {
  return plain_metal(metal) == name;
}

bool CautionFacts::anode_of(const std::string& word) const {
  return std::any_of(anode_metals.begin(), anode_metals.end(),
                     [&](const std::string& metal_and_name) {
                       return metal_and_name.find(word) != std::string::npos;
                     });
}

bool CautionFacts::part_is(const std::string& trait) const {
  return part_traits.contains(trait);
}

CautionFacts caution_facts(const Case& c) {
  CautionFacts f;
  f.in_solution = substances_in(c.solution);
  f.known = composition_known(c.solution);
  f.metal = c.solution.metal.name;
  f.hydrogen = c.solution.efficiency.value < 0.995;
  f.warmest = c.solution.temperature;
  for (const Step& step : c.steps)
    if (step.temperature) f.warmest = std::max(f.warmest, *step.temperature);
  for (const Anode& a : c.anodes) {
    f.inert = f.inert || !a.soluble;
    f.anode_metals.push_back(mesh::lower_case(a.metal + " " + a.name));
  }
  look_at_part(c, f);
  look_at_supply(c, f);
  return f;
}

}  // namespace thinspot::solver
