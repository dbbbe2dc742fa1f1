// How electrodes polarize.
#include "io/case_reading.hpp"
#include "io/trade_units.hpp"
#include "solver/laws.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

/// R = b / i with b = 2 R T / F at 25 degC, the slope of a Tafel law with a
/// transfer coefficient of one half (118 mV a decade).
constexpr double kTafelSlope = 0.0514;  // [V]
constexpr double kTafelShare = 0.6;     // half width of the 95 % interval
constexpr double kUsualDensity = 100;   // [A/m2], where nothing is known

void assume_entry_slope(CaseReading& r) {
  const SolutionEntry& e = *r.entry;
  r.content.cathode.resistance = e.polarization;
  r.content.cathode.at = e.polarization_at;
  r.content.assumed.push_back(
      {"cathode.polarization_resistance",
       fmt::format("{:.3g} ohm cm2 +- {:.0f} % at {:.3g} A/dm2",
                   1e4 * e.polarization.value,
                   100 * e.polarization.plus_minus / e.polarization.value,
                   to_a_dm2(e.polarization_at)),
       fmt::format("left out; {}: {}", e.name, e.polarization_source)});
}

void assume_slope(CaseReading& r) {
  if (r.entry) return assume_entry_slope(r);
  const double density = likely_density(r);
  const double slope = kTafelSlope / density;
  solver::Polarization& law = r.content.cathode;
  law.resistance = {slope, kTafelShare * slope};
  law.at = density;
  r.content.assumed.push_back(
      {"cathode.polarization_resistance",
       fmt::format("{:.3g} ohm cm2 +- {:.0f} % at {:.3g} A/dm2", 1e4 * slope,
                   100 * kTafelShare, to_a_dm2(density)),
       "left out; common Tafel slope of acid baths, from memory"});
}

/// Keys of the other kind of law.
void refuse(TableReader& t, const std::vector<const char*>& keys,
            const std::string& law, const std::string& mend) {
  for (const char* key : keys)
    if (t.has(key)) t.wrong(key, "has no use in a " + law + " law", mend);
}

bool read_linear(TableReader& t, solver::Polarization& law) {
  refuse(t, {"exchange_current_density", "tafel_slope", "reverse_tafel_slope"},
         "linear", "leave it out, or say law = \"tafel\"");
  const auto resistance = t.quantity("polarization_resistance");
  if (resistance) law.resistance = *resistance;
  law.at = t.value("polarization_at");
  if (t.has("polarization_at") && !t.has("polarization_resistance"))
    t.wrong("polarization_at", "serves with polarization_resistance only",
            "give that as well, as in polarization_resistance = "
            "\"2.6 ohm cm2\", or leave this out");
  return resistance.has_value();
}

bool read_curve(TableReader& t, solver::Polarization& law,
                const std::string& word) {
  const bool both = law.law == solver::Law::butler_volmer;
  refuse(t, {"polarization_resistance", "polarization_at"}, word,
         "leave it out: the slope follows from tafel_slope");
  if (!both)
    refuse(t, {"reverse_tafel_slope"}, word,
           "leave it out, or say law = \"butler-volmer\"");
  for (const auto& [key, into, example] :
       {std::tuple{"exchange_current_density", &law.exchange_current_density,
                   "10 A/m2"},
        std::tuple{"tafel_slope", &law.tafel_slope, "118 mV"}}) {
    if (const auto given = t.quantity(key)) *into = *given;
    if (!t.has(key))
      t.missing(key, fmt::format("a {} law needs it, as in {} = \"{}\"", word,
                                 key, example));
  }
  law.reverse_tafel_slope = law.tafel_slope;
  if (const auto given = t.quantity("reverse_tafel_slope"))
    law.reverse_tafel_slope = *given;
  // What is missing is in the findings; reading goes on with a sound law.
  for (solver::Quantity* q : {&law.tafel_slope, &law.reverse_tafel_slope})
    if (q->value <= 0) q->value = 0.118;
  if (law.exchange_current_density.value <= 0)
    law.exchange_current_density.value = 1;
  return true;
}

}  // namespace

double likely_density(const CaseReading& r) {
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

bool read_polarization(TableReader& t, solver::Polarization& law) {
  const std::string word = t.text("law").value_or("linear");
  law.law = solver::find_law(word).value_or(solver::Law::linear);
  if (const auto offset = t.quantity("polarization_offset"))
    law.offset = *offset;
  return law.law == solver::Law::linear ? read_linear(t, law)
                                        : read_curve(t, law, word);
}

void read_mass_transfer(CaseReading& r, TableReader& t,
                        solver::Polarization& law) {
  law.mass_transfer = t.flag("mass_transfer").value_or(false);
  if (law.mass_transfer && !r.content.solution.limiting_current_density)
    t.wrong("mass_transfer", "needs the solution's limiting current density",
            "limiting_current_density = \"8 A/dm2\" under [solution]");
}

void read_cathode(CaseReading& r) {
  TableReader t = open_table(r, "cathode");
  if (!read_polarization(t, r.content.cathode) &&
      !t.has("polarization_resistance"))
    assume_slope(r);
  read_mass_transfer(r, t, r.content.cathode);
}

}  // namespace thinspot::io
