#include "solver/step_case.hpp"

#include "solver/polarization.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

bool listed(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Takes a solid out, with its masks; what comes after it moves up.
void remove_solid(Case& c, std::size_t solid) {
  const std::string key = c.section.solids[solid].key;
  c.section.solids.erase(c.section.solids.begin() +
                         static_cast<std::ptrdiff_t>(solid));
  std::erase_if(c.section.masks,
                [&](const mesh::Mask& mask) { return mask.on == key; });
  const auto move_up = [solid](std::size_t& index) {
    if (index > solid) --index;
  };
  for (Anode& a : c.anodes) move_up(a.solid);
  for (Thief& t : c.thieves) move_up(t.solid);
  for (Floating& f : c.floating) move_up(f.solid);
  for (Clip& clip : c.clips)
    for (std::size_t& index : clip.solids) move_up(index);
}

/// An anode without a lead is metal that nothing is connected to.
void cut_off(Case& c, const Anode& anode) {
  c.section.solids[anode.solid].role = mesh::Role::floating;
  constexpr double hardly = 10;  // what a floating anode passes [A/m2]
  Quantity resistance =
      linearized(anode.polarization, c.solution, true, hardly).resistance;
  resistance.value += anode.bag_resistance.value;
  c.floating.push_back({anode.name, anode.solid, anode.metal, resistance});
}

void change_anodes(Case& c, const Step& step) {
  for (const Anode& anode : c.anodes)
    if (listed(step.off, anode.name)) cut_off(c, anode);
  std::vector<std::size_t> out;
  for (const Anode& anode : c.anodes)
    if (listed(step.lifted, anode.name)) out.push_back(anode.solid);
  std::erase_if(c.anodes, [&](const Anode& anode) {
    return listed(step.off, anode.name) || listed(step.lifted, anode.name);
  });
  std::sort(out.rbegin(), out.rend());
  for (std::size_t solid : out) remove_solid(c, solid);
}

void change_clips(Case& c, const Step& step) {
  if (!step.clips) return;
  std::vector<std::size_t> out;
  for (const Clip& clip : c.clips)
    if (!listed(*step.clips, clip.name))
      out.insert(out.end(), clip.solids.begin(), clip.solids.end());
  std::erase_if(c.clips, [&](const Clip& clip) {
    return !listed(*step.clips, clip.name);
  });
  std::sort(out.rbegin(), out.rend());
  for (std::size_t solid : out) remove_solid(c, solid);
}

/// Leads stay what they are.
void set(Supply& supply, const Supply& as) {
  const Quantity leads = supply.lead_resistance;
  const std::optional<Adapter> adapter = supply.adapter;
  supply = as;
  supply.lead_resistance = leads;
  supply.adapter = adapter;
}

}  // namespace

Case case_of_step(const Case& c, std::size_t step) {
  Case alone = c;
  alone.steps = {c.steps[step]};
  const Step& s = alone.steps.front();
  alone.section.motion = s.motion;
  if (s.supply) set(alone.supply, *s.supply);
  for (std::size_t r = 0; s.rectifiers && r < s.rectifiers->size(); ++r)
    set(alone.rectifiers[r].supply, (*s.rectifiers)[r]);
  alone.solution = solution_in(c, step);
  change_anodes(alone, s);
  change_clips(alone, s);
  return alone;
}

Solution solution_in(const Case& c, std::size_t step) {
  Solution s = c.solution;
  double known_at = s.temperature;
  for (std::size_t k = 0; k <= step; ++k) {
    if (c.steps[k].temperature) s.temperature = *c.steps[k].temperature;
    if (!c.steps[k].conductivity) continue;
    s.conductivity = *c.steps[k].conductivity;
    known_at = s.temperature;
  }
  const double warmer = s.temperature - known_at;
  if (warmer == 0) return s;
  const double factor = std::exp(s.conductivity_per_kelvin.value * warmer);
  s.conductivity.value *= factor;
  s.conductivity.plus_minus *= factor;
  return s;
}

bool same_places(const Step& a, const Step& b) {
  return a.motion == b.motion && a.off == b.off && a.lifted == b.lifted &&
         a.clips == b.clips;
}

bool same_currents(const Step& a, const Step& b) {
  return same_places(a, b) && a.supply == b.supply &&
         a.rectifiers == b.rectifiers;
}

bool same_field(const Case& a, const Case& b) {
  return same_currents(a.steps.front(), b.steps.front()) &&
         a.solution.conductivity == b.solution.conductivity;
}

}  // namespace thinspot::solver
