#include "io/case_reading.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

/// R = b / i with b = 2 R T / F at 25 degC, the slope of a Tafel law with a
/// transfer coefficient of one half (118 mV a decade).
constexpr double kTafelSlope = 0.0514;  // [V]
constexpr double kTafelShare = 0.6;     // half width of the 95 % interval
constexpr double kUsualDensity = 100;   // [A/m2], where nothing is known

/// Mean current density over the parts, as near as the file tells it [A/m2].
double likely_density(const Reading& r) {
  const solver::Supply& supply = r.content.supply;
  if (supply.current_density) return supply.current_density->value;
  double current = supply.current ? supply.current->value : 0;
  for (const solver::Rectifier& rectifier : r.content.rectifiers) {
    const solver::Supply& own = rectifier.supply;
    if (own.current_density) return own.current_density->value;
    if (!own.current) return kUsualDensity;
    current += own.current->value;
  }
  if (current > 0 && r.part_area)
    return current /
           (*r.part_area * static_cast<double>(solver::copies_of(r.content)));
  return kUsualDensity;
}

void assume_entry_slope(Reading& r) {
  const SolutionEntry& e = *r.entry;
  r.content.cathode.resistance = e.polarization;
  r.content.cathode.at = e.polarization_at;
  r.content.assumed.push_back(
      {"cathode.polarization_resistance",
       fmt::format("{:.3g} ohm cm2 +- {:.0f} % at {:.3g} A/dm2",
                   1e4 * e.polarization.value,
                   100 * e.polarization.plus_minus / e.polarization.value,
                   1e-2 * e.polarization_at),
       fmt::format("left out; {}: {}", e.name, e.polarization_source)});
}

void assume_slope(Reading& r) {
  if (r.entry) return assume_entry_slope(r);
  const double density = likely_density(r);
  const double slope = kTafelSlope / density;
  solver::Polarization& law = r.content.cathode;
  law.resistance = {slope, kTafelShare * slope};
  law.at = density;
  r.content.assumed.push_back(
      {"cathode.polarization_resistance",
       fmt::format("{:.3g} ohm cm2 +- {:.0f} % at {:.3g} A/dm2", 1e4 * slope,
                   100 * kTafelShare, 1e-2 * density),
       "left out; common Tafel slope of acid baths, from memory"});
}

}  // namespace

bool read_polarization(TableReader& t, solver::Polarization& law) {
  const auto resistance = t.quantity("polarization_resistance");
  if (resistance) law.resistance = *resistance;
  law.at = t.value("polarization_at");
  if (t.has("polarization_at") && !t.has("polarization_resistance"))
    t.wrong("polarization_at", "serves with polarization_resistance only",
            "give that as well, as in polarization_resistance = "
            "\"2.6 ohm cm2\", or leave this out");
  if (const auto offset = t.quantity("polarization_offset"))
    law.offset = *offset;
  return resistance.has_value();
}

void read_cathode(Reading& r) {
  TableReader t = open_table(r, "cathode");
  t.text("law");
  if (!read_polarization(t, r.content.cathode) &&
      !t.has("polarization_resistance"))
    assume_slope(r);
}

void read_settings(TableReader& t, solver::Supply& supply) {
  std::vector<std::string> given;
  for (const char* key : {"current", "current_density", "voltage"})
    if (t.has(key)) given.emplace_back(key);
  for (std::size_t k = 1; k < given.size(); ++k)
    t.wrong(given[k], fmt::format("{} is given as well", given.front()),
            "give one of the two: the other follows");
  if (!given.empty()) {
    supply.current = t.quantity("current");
    supply.current_density = t.quantity("current_density");
    supply.voltage = t.quantity("voltage");
  }
  if (const auto limit = t.value("voltage_limit")) supply.voltage_limit = limit;
  if (supply.voltage && supply.voltage_limit &&
      supply.voltage->value > *supply.voltage_limit)
    t.wrong("voltage_limit",
            fmt::format("is below the voltage itself, {:.4g} V",
                        supply.voltage->value),
            "at least that, or leave it out");
}

}  // namespace thinspot::io
