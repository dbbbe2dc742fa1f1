#include "solver/mixture.hpp"

#include "mesh/errors.hpp"
#include "solver/ions.hpp"
#include "solver/lone_conductivity.hpp"

#include <algorithm>
#include <cmath>

namespace thinspot::solver {

namespace {

/// Half widths of the 95 % interval, relative. That of the rule of mixtures
/// comes from the electrolytes that tests/unit/mixture_test.cpp holds it
/// against; those of what is outside the data are a wide guess.
constexpr double kMixing = 0.20;
constexpr double kOutside = 0.40;  // above the last point of a table

/// Of hydrogensulfate in a crowd of ions [mol/m3]: [H][SO4]/[HSO4]. In much
/// water it is 10; fitted to the acid copper electrolytes of the test.
constexpr double kHydrogensulfate = 300;

bool is_weak(const Compound& c) { return c.cation.empty(); }

bool is_sulfuric(const Compound& c) {
  return c.cation == "H" && c.anion == "SO4";
}

/// Free hydrogen ions where so much sulfuric acid meets so much other sulfate
/// [mol/m3]: x with x (s + x - 2a + a) = K (2a - x).
double free_hydrogen(double acid, double sulfate) {
  const double b = sulfate - acid + kHydrogensulfate;
  return (std::sqrt(b * b + 8 * acid * kHydrogensulfate) - b) / 2;
}

/// What other sulfates leave of the conduction of sulfuric acid, 0 to 1.
double left_of_acid(const std::vector<Dose>& doses) {
  double acid = 0, sulfate = 0;
  for (const Dose& d : doses) {
    if (is_sulfuric(*d.compound))
      acid += d.concentration;
    else if (d.compound->anion == "SO4")
      sulfate += d.concentration * d.compound->anions;
  }
  return acid > 0 ? free_hydrogen(acid, sulfate) / free_hydrogen(acid, 0) : 1;
}

bool acid_meets_base(const std::vector<Dose>& doses) {
  const auto any = [&](Acidity a, Acidity b) {
    return std::any_of(doses.begin(), doses.end(), [&](const Dose& d) {
      return d.concentration > 0 &&
             (d.compound->acidity == a || d.compound->acidity == b);
    });
  };
  return any(Acidity::strong_acid, Acidity::weak_acid) &&
         any(Acidity::strong_base, Acidity::weak_base);
}

/// Sums of what each conducts, and of the squares of what each may be off.
struct Sum {
  double conductivity = 0;
  double variance = 0;
  double per_kelvin = 0;
  double per_kelvin_spread = 0;
  int conducting = 0;
  bool outside = false, analogous = false;
  std::string source;

  void add(const LoneConductivity& lone, double share, double spread) {
    const double part = share * lone.conductivity;
    if (part <= 0) return;
    conductivity += part;
    variance += std::pow(part * spread, 2);
    per_kelvin += part * lone.per_kelvin.value;
    per_kelvin_spread += part * lone.per_kelvin.plus_minus;
    ++conducting;
    outside = outside || lone.outside;
    analogous = analogous || lone.analogous;
    if (source.find(lone.source) == std::string::npos)
      source += (source.empty() ? "" : "; ") + lone.source;
  }
};

double spread_of(const LoneConductivity& lone) {
  return lone.outside ? std::hypot(lone.spread, kOutside) : lone.spread;
}

Sum summed(const std::vector<Dose>& doses, const std::vector<Compound>& all,
           double temperature) {
  double equivalents = 0;
  for (const Dose& d : doses)
    if (!is_weak(*d.compound)) equivalents += equivalents_of(d);
  Sum sum;
  const double acid_left = left_of_acid(doses);
  for (const Dose& d : doses) {
    if (d.concentration <= 0 || is_weak(*d.compound)) continue;
    const double own = equivalents_of(d);
    const LoneConductivity lone =
        lone_conductivity(*d.compound, all, equivalents, temperature);
    const double share = own / equivalents;
    sum.add(lone, share * (is_sulfuric(*d.compound) ? acid_left : 1),
            spread_of(lone));
  }
  for (const Dose& d : doses) {
    if (d.concentration <= 0 || !is_weak(*d.compound)) continue;
    if (!has_table(*d.compound, all)) continue;
    const LoneConductivity lone =
        lone_conductivity(*d.compound, all, d.concentration, temperature);
    // Beside a strong one it hardly splits: between nothing and all.
    const bool alone = equivalents == 0;
    sum.add(lone, alone ? 1 : 0.5, alone ? spread_of(lone) : 1);
  }
  return sum;
}

}  // namespace

MixtureConductivity conductivity_of(const std::vector<Dose>& doses,
                                    const std::vector<Compound>& all,
                                    double temperature) {
  const Sum sum = summed(doses, all, temperature);
  if (sum.conductivity <= 0)
    throw InputError("", "nothing in it conducts",
                     "add the salts and acids that are in there, or give "
                     "conductivity");
  MixtureConductivity result;
  result.per_kelvin = {sum.per_kelvin / sum.conductivity,
                       sum.per_kelvin_spread / sum.conductivity};
  result.source = sum.source;
  double spread = std::sqrt(sum.variance) / sum.conductivity;
  result.trust = sum.analogous ? Trust::analogy : Trust::measured;
  if (sum.conducting > 1) {
    spread = std::hypot(spread, kMixing);
    result.trust = Trust::mixed;
  }
  result.conductivity = {sum.conductivity, sum.conductivity * spread};
  if (spread < kOutside && !sum.outside && !acid_meets_base(doses))
    return result;
  // A wide guess says so: half as much to twice as much, and no less wide than
  // what was found.
  result.trust = Trust::guess;
  const double factor = acid_meets_base(doses) ? 3 : 2;
  const double low = sum.conductivity / std::max(factor, 1 + spread);
  const double high = sum.conductivity * std::max(factor, 1 + spread);
  result.conductivity = {(low + high) / 2, (high - low) / 2};
  return result;
}

double transference(const std::vector<Dose>& doses, const std::string& metal) {
  double of_metal = 0, all = 0;
  for (const Dose& d : doses) {
    const Compound& c = *d.compound;
    if (is_weak(c)) continue;
    const double n = equivalents_of(d);
    const Ion* plus = find_ion(c.cation);
    const Ion* minus = find_ion(c.anion);
    all += n * (plus->conductance + minus->conductance);
    if (c.metal == metal) of_metal += n * plus->conductance;
  }
  return all > 0 ? of_metal / all : 0;
}

double volume_of(double water, const std::vector<Portion>& portions) {
  double volume = water;
  for (const Portion& p : portions)
    volume +=
        p.water / kWaterDensity + p.dry_mass * p.compound->apparent_volume;
  return volume;
}

}  // namespace thinspot::solver
