#include "solver/lone_conductivity.hpp"

#include "solver/ions.hpp"

#include <cmath>

namespace thinspot::solver {

namespace {

/// Of one equivalent in much water at 25 degC [S m2/mol]; 0 where it has none.
double ideal(const Compound& c) {
  const Ion* plus = find_ion(c.cation);
  const Ion* minus = find_ion(c.anion);
  return plus && minus ? plus->conductance + minus->conductance : 0;
}

const Compound& with_table(const Compound& c,
                           const std::vector<Compound>& all) {
  if (!c.table.conductivity.empty() || c.like.empty()) return c;
  const Compound* other = find_compound(all, c.like);
  return other ? *other : c;
}

/// Charges in a cubic metre of a solution of that mass fraction [mol/m3].
double equivalents_at(const Compound& c, double fraction) {
  const double volume =
      (1 - fraction) / kWaterDensity + fraction * c.apparent_volume;  // of 1 kg
  return fraction / dry_molar_mass(c) / volume * equivalents_per_unit(c);
}

/// Conductivity of each equivalent [S m2/mol] by its table, at the table's
/// temperature.
/// @param zero  in much water; 0 where it falls off without a limit
double by_table(const Compound& c, double n, double zero, bool& outside,
                bool& below) {
  const auto& t = c.table;
  const std::size_t count = t.conductivity.size();
  double from = 0, from_value = zero;
  double before = 0, before_value = 0;
  for (std::size_t k = 0; k < count; ++k) {
    const double at = equivalents_at(c, t.mass_fraction[k]);
    const double value = t.conductivity[k] / at;
    if (n <= at) {
      if (k == 0 && zero <= 0) return value * std::sqrt(at / n);
      // Between Kohlrausch's square root, of salts that split wholly, and the
      // steeper fall of those whose ions pair.
      if (k == 0) {
        below = true;
        return zero + (value - zero) * std::cbrt(n / at);
      }
      return from_value * std::pow(value / from_value,
                                   std::log(n / from) / std::log(at / from));
    }
    before = from;
    before_value = from_value;
    from = at;
    from_value = value;
  }
  outside = true;
  if (before <= 0) return from_value;
  const double slope =
      std::log(from_value / before_value) / std::log(from / before);
  return from_value * std::pow(n / from, slope);
}

}  // namespace

int equivalents_per_unit(const Compound& compound) {
  const Ion* plus = find_ion(compound.cation);
  return plus ? plus->charge * compound.cations : 1;
}

double equivalents_of(const Dose& dose) {
  return dose.concentration * equivalents_per_unit(*dose.compound);
}

bool has_table(const Compound& compound, const std::vector<Compound>& all) {
  return !with_table(compound, all).table.conductivity.empty();
}

LoneConductivity lone_conductivity(const Compound& compound,
                                   const std::vector<Compound>& all,
                                   double equivalents, double temperature) {
  const Compound& tabled = with_table(compound, all);
  LoneConductivity lone;
  lone.analogous = &tabled != &compound;
  lone.per_kelvin = compound.per_kelvin;
  lone.source = tabled.table.source;
  if (lone.analogous) lone.source += ", as " + tabled.name;
  const double known_at = tabled.table.temperature;
  const double cooled =
      std::exp(tabled.per_kelvin.value * (known_at - kRoomTemperature));
  bool below = false;
  const double each = by_table(tabled, equivalents, ideal(tabled) * cooled,
                               lone.outside, below);
  // Of the cube root against 1-1 and 2-2 salts at 0.01 equivalents.
  const double diluted = below ? 0.10 : 0;
  const double ions = lone.analogous ? ideal(compound) / ideal(tabled) : 1;
  const double warmer = temperature - known_at;
  lone.conductivity =
      equivalents * each * ions * std::exp(lone.per_kelvin.value * warmer);
  lone.spread =
      std::hypot(compound.spread, lone.per_kelvin.plus_minus * warmer, diluted);
  return lone;
}

}  // namespace thinspot::solver
