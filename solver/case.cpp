#include "solver/case.hpp"

#include <fmt/format.h>

#include <numbers>

namespace thinspot::solver {

double total_duration(const Case& c) {
  double seconds = 0;
  for (const Step& s : c.steps) seconds += s.duration.value;
  return seconds;
}

std::size_t copies_of(const Case& c) { return c.rack ? c.rack->at.size() : 1; }

double bare_area(const Wire& wire) {
  return wire.insulated ? 0 : std::numbers::pi * wire.diameter * wire.wetted;
}

void for_each_quantity(
    Case& c,
    const std::function<void(const std::string& key, Quantity&)>& visit) {
  visit("solution.conductivity", c.solution.conductivity);
  visit("solution.efficiency", c.solution.efficiency);
  visit("cathode.polarization_resistance", c.cathode.resistance);
  visit("cathode.polarization_offset", c.cathode.offset);
  for (Anode& a : c.anodes) {
    const std::string key = "anode." + a.name + ".";
    visit(key + "polarization_resistance", a.polarization.resistance);
    visit(key + "polarization_offset", a.polarization.offset);
    visit(key + "open_circuit_voltage", a.open_circuit_voltage);
    visit(key + "bag_resistance", a.bag_resistance);
  }
  for (Clip& clip : c.clips)
    visit("clip." + clip.name + ".contact_resistance", clip.contact_resistance);
  for (Thief& t : c.thieves) {
    const std::string key = "thief." + t.name + ".";
    visit(key + "resistance", t.resistance);
    if (!t.polarization) continue;
    visit(key + "polarization_resistance", t.polarization->resistance);
    visit(key + "polarization_offset", t.polarization->offset);
  }
  for (Floating& f : c.floating)
    visit("floating." + f.name + ".polarization_resistance", f.resistance);
  if (c.rack)
    for (std::size_t k = 0; k < c.rack->contact_resistance.size(); ++k)
      visit(fmt::format("rack.contact_resistance.{}", k + 1),
            c.rack->contact_resistance[k]);
  if (c.supply.current) visit("supply.current", *c.supply.current);
  if (c.supply.current_density)
    visit("supply.current_density", *c.supply.current_density);
  if (c.supply.voltage) visit("supply.voltage", *c.supply.voltage);
  visit("supply.lead_resistance", c.supply.lead_resistance);
  for (std::size_t k = 0; k < c.steps.size(); ++k) {
    const std::string key = fmt::format("step.{}.", k + 1);
    visit(key + "duration", c.steps[k].duration);
    if (!c.steps[k].supply) continue;
    Supply& supply = *c.steps[k].supply;
    if (supply.current) visit(key + "supply.current", *supply.current);
    if (supply.current_density)
      visit(key + "supply.current_density", *supply.current_density);
    if (supply.voltage) visit(key + "supply.voltage", *supply.voltage);
  }
}

}  // namespace thinspot::solver
