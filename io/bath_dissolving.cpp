#include "io/bath_dissolving.hpp"

#include "io/library.hpp"
#include "io/library_compounds.hpp"
#include "io/nearest.hpp"
#include "io/number_text.hpp"
#include "io/phrases.hpp"
#include "io/quote.hpp"
#include "io/trade_units.hpp"
#include "mesh/digits.hpp"
#include "mesh/errors.hpp"
#include "solver/bath.hpp"
#include "solver/gas.hpp"

#include <fmt/format.h>

namespace thinspot::io {

namespace {

/// Share of the charge that dissolves metal; oxygen, or a film on the metal,
/// takes the rest. From memory.
constexpr solver::Quantity kEfficiency{0.8, 0.2};

solver::Metal metal_named(const std::string& name) {
  std::vector<std::string> names;
  for (const solver::Metal& metal : library_metals()) {
    if (metal.name == name) return metal;
    names.push_back(metal.name);
  }
  const auto near = nearest(name, names);
  throw InputError("--dissolve",
                   in_quotes(name) + " is not in the library of metals",
                   near ? fmt::format("is \"{}\" meant?", *near)
                        : "it has " + with_or(names));
}

/// "vinegar 5 %" and the like.
Ware acid_named(const std::vector<solver::Compound>& all,
                const std::string& name) {
  const Ware ware = find_ware(all, name);
  const bool acid =
      ware.compound && (ware.compound->acidity == solver::Acidity::weak_acid ||
                        ware.compound->acidity == solver::Acidity::strong_acid);
  if (acid) return ware;
  const auto near = nearest(ware_name(name).name, ware_names(all));
  throw InputError("--into", in_quotes(name) + " is no acid that is known here",
                   near ? fmt::format("is \"{}\" meant?", *near)
                        : "as in --into \"acetic acid\"");
}

std::string span(const solver::Quantity& q, double unit) {
  return fmt::format("{} to {}", digits(unit * (q.value - q.plus_minus), 2),
                     digits(unit * (q.value + q.plus_minus), 2));
}

std::string acid_line(const Ware& ware, const solver::Quantity& ions) {
  const solver::Compound& c = *ware.compound;
  const double protons = c.cation == "H"                ? c.cations
                         : c.name.starts_with("citric") ? 3
                                                        : 1;
  const solver::Quantity mass{ions.value * c.molar_mass / protons,
                              ions.plus_minus * c.molar_mass / protons};
  std::string text =
      fmt::format("Acid:     it takes up {} g of {}", span(mass, 1e3), c.name);
  const std::optional<double> strength =
      ware.strength         ? ware.strength
      : c.strengths.empty() ? std::optional<double>()
                            : std::optional(c.strengths.front());
  if (!strength) return text + ".";
  const double unit = 1e6 / (*strength * *solver::density_at(c, *strength));
  return text + fmt::format(
                    ", as in {} ml of {:.3g} %. Have twice that: the "
                    "last of it works slowly.",
                    span(mass, unit), 100 * *strength);
}

}  // namespace

std::vector<std::string> dissolving_in_words(const DissolveOrder& order) {
  const solver::Metal metal = metal_named(order.metal);
  const auto& compounds = library_compounds();
  const Ware ware =
      acid_named(compounds, order.acid.empty() ? "acetic acid" : order.acid);
  const solver::Dissolving d =
      solver::dissolved(metal, order.current, order.time, kEfficiency);
  std::vector<std::string> lines;
  lines.push_back(fmt::format("Charge:   {} A for {} are {} A h.",
                              digits(order.current), duration_text(order.time),
                              digits(d.charge / kHour)));
  lines.push_back(fmt::format(
      "Metal:    {} g of {} dissolve: {} g each ampere hour, of which 60 to "
      "100 % happen (from memory). Weigh the anode before and after.",
      span(d.mass, 1e3), metal.name,
      digits(to_grams(d.mass.value / kEfficiency.value / d.charge * kHour))));
  lines.push_back(acid_line(ware, d.acid));
  if (order.volume)
    lines.push_back(fmt::format(
        "Solution: {} ml come to {} g/l of {}.", digits(1e6 * *order.volume),
        span({d.mass.value / *order.volume, d.mass.plus_minus / *order.volume},
             1),
        metal.name));
  lines.push_back(
      fmt::format("Gas:      {} l of hydrogen at the other electrode, as much "
                  "as all of the "
                  "charge can make: open air, no flame, no closed jar.",
                  digits(1e3 * solver::gas_volume(d.hydrogen.value), 2)));
  lines.emplace_back(
      "How:      hang the other electrode, of the same metal, in a porous pot "
      "with the same acid: else the metal plates out on it again. No stainless "
      "steel: it gives chromium(VI).");
  if (metal.name == "nickel")
    lines.emplace_back(
        "Caution:  nickel salts sensitize the skin and cause cancer when "
        "breathed in. Nickel may film over: a pinch of salt opens it, more "
        "gives chlorine.");
  return lines;
}

}  // namespace thinspot::io
