#include "solver/case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

namespace thinspot::solver {

double total_duration(const Case& c) {
  double seconds = 0;
  for (const Step& s : c.steps) seconds += s.duration.value;
  return seconds;
}

const Anode* anode_named(const Case& c, const std::string& name) {
  for (const Anode& anode : c.anodes)
    if (anode.name == name) return &anode;
  return nullptr;
}

std::size_t copies_of(const Case& c) { return c.rack ? c.rack->at.size() : 1; }

double bare_area(const Wire& wire) {
  return wire.insulated ? 0 : std::numbers::pi * wire.diameter * wire.wetted;
}

namespace {

/// True where a step's temperature moves the conductivity.
bool follows_temperature(const Case& c) {
  return std::any_of(c.steps.begin(), c.steps.end(), [](const Step& s) {
    return s.temperature && !s.conductivity;
  });
}

/// True where mass transfer bounds any law.
bool bounds_a_law(const Case& c) {
  if (!c.solution.limiting_current_density) return false;
  return c.cathode.mass_transfer ||
         std::any_of(c.thieves.begin(), c.thieves.end(), [](const Thief& t) {
           return t.polarization && t.polarization->mass_transfer;
         });
}

void visit_law(
    Polarization& law, const std::string& key,
    const std::function<void(const std::string& key, Quantity&)>& visit) {
  if (law.law == Law::linear) {
    visit(key + "polarization_resistance", law.resistance);
  } else {
    visit(key + "exchange_current_density", law.exchange_current_density);
    visit(key + "tafel_slope", law.tafel_slope);
    if (law.law == Law::butler_volmer)
      visit(key + "reverse_tafel_slope", law.reverse_tafel_slope);
  }
  visit(key + "polarization_offset", law.offset);
}

void visit_settings(
    Supply& supply, const std::string& key,
    const std::function<void(const std::string& key, Quantity&)>& visit) {
  if (supply.current) visit(key + "current", *supply.current);
  if (supply.current_density)
    visit(key + "current_density", *supply.current_density);
  if (supply.voltage) visit(key + "voltage", *supply.voltage);
}

}  // namespace

void for_each_quantity(
    Case& c,
    const std::function<void(const std::string& key, Quantity&)>& visit) {
  visit("solution.conductivity", c.solution.conductivity);
  if (follows_temperature(c))
    visit("solution.conductivity_per_kelvin",
          c.solution.conductivity_per_kelvin);
  visit("solution.efficiency", c.solution.efficiency);
  if (bounds_a_law(c))
    visit("solution.limiting_current_density",
          *c.solution.limiting_current_density);
  visit_law(c.cathode, "cathode.", visit);
  for (Anode& a : c.anodes) {
    const std::string key = "anode." + a.name + ".";
    visit_law(a.polarization, key, visit);
    visit(key + "open_circuit_voltage", a.open_circuit_voltage);
    visit(key + "bag_resistance", a.bag_resistance);
  }
  for (Clip& clip : c.clips)
    visit("clip." + clip.name + ".contact_resistance", clip.contact_resistance);
  for (Thief& t : c.thieves) {
    const std::string key = "thief." + t.name + ".";
    visit(key + "resistance", t.resistance);
    if (t.polarization) visit_law(*t.polarization, key, visit);
  }
  for (Floating& f : c.floating)
    visit("floating." + f.name + ".polarization_resistance", f.resistance);
  if (c.rack)
    for (std::size_t k = 0; k < c.rack->contact_resistance.size(); ++k)
      visit(fmt::format("rack.contact_resistance.{}", k + 1),
            c.rack->contact_resistance[k]);
  visit_settings(c.supply, "supply.", visit);
  visit("supply.lead_resistance", c.supply.lead_resistance);
  for (Rectifier& r : c.rectifiers) {
    const std::string key = "rectifier." + r.name + ".";
    visit_settings(r.supply, key, visit);
    visit(key + "lead_resistance", r.supply.lead_resistance);
  }
  for (std::size_t k = 0; k < c.steps.size(); ++k) {
    Step& step = c.steps[k];
    const std::string key = fmt::format("step.{}.", k + 1);
    visit(key + "duration", step.duration);
    if (step.conductivity) visit(key + "conductivity", *step.conductivity);
    if (step.supply) visit_settings(*step.supply, key + "supply.", visit);
    if (!step.rectifiers) continue;
    for (std::size_t r = 0; r < step.rectifiers->size(); ++r)
      visit_settings((*step.rectifiers)[r],
                     key + "rectifiers." + c.rectifiers[r].name + ".", visit);
  }
}

}  // namespace thinspot::solver
