#include "io/recipe.hpp"

#include "io/library_compounds.hpp"
#include "io/nearest.hpp"
#include "io/quote.hpp"
#include "io/trade_units.hpp"
#include "io/units.hpp"
#include "mesh/errors.hpp"
#include "solver/mixture.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace thinspot::io {

namespace {

constexpr double kLeastVolume = 1e-6;  // [m3]
constexpr double kMostVolume = 100;    // [m3]
constexpr double kMostContent = 2000;  // [kg/m3]
/// More dissolves in the warm, by so much of itself with each kelvin above
/// 20 degC; from memory, of common salts.
constexpr double kDissolvesMore = 0.02;

const KeyInfo& amount() {
  static const KeyInfo info{"", Form::text};
  return info;
}

struct Amount {
  std::optional<double> mass;    ///< [kg]
  std::optional<double> volume;  ///< [m3]
};

/// A mass or a volume.
std::optional<Amount> amount_of(TableReader& t, const std::string& name) {
  const std::string text = t.as_written(name);
  for (const Dimension d : {Dimension::mass, Dimension::volume}) {
    try {
      const ParsedQuantity read = parse_quantity(text, d);
      if (read.value <= 0 || read.plus_minus != 0) break;
      return d == Dimension::mass ? Amount{read.value, {}}
                                  : Amount{{}, read.value};
    } catch (const InputError&) {
      continue;  // the other, or the message below
    }
  }
  t.wrong(name, in_quotes(text) + " is no amount above nothing",
          "a mass, as in \"45 g\", or of an acid a volume, as in \"20 ml\"");
  return std::nullopt;
}

/// The ware as strength and amount tell it.
std::optional<Ingredient> ingredient(TableReader& t, const std::string& name,
                                     const std::vector<solver::Compound>& all,
                                     Recipe& recipe) {
  const Ware ware = find_ware(all, name);
  if (!ware.compound) {
    const auto near = nearest(ware_name(name).name, ware_names(all));
    t.wrong(name, "is not among the known substances",
            near ? fmt::format("is \"{}\" meant?", *near)
                 : "leave it out where it hardly conducts, or measure "
                   "conductivity and give that");
    return std::nullopt;
  }
  const solver::Compound& c = *ware.compound;
  const auto given = amount_of(t, name);
  if (!given) return std::nullopt;
  Ingredient in{&c, 0, 0, given->volume, ware.strength.value_or(1)};
  if (in.strength <= 0 || in.strength > 1) {
    t.wrong(name, "has a strength that cannot be", "above 0 up to 100 %");
    return std::nullopt;
  }
  if (!c.strengths.empty() && !ware.strength) {
    t.wrong(name, "does not say its strength",
            fmt::format("write it behind the name, as in \"{} {:.0f} %\" (by "
                        "mass; the label tells it)",
                        c.name, 100 * c.strengths.back()));
    return std::nullopt;
  }
  if (given->volume && c.strengths.empty()) {
    t.wrong(name, "is measured by volume", "weigh it: a mass, as in \"45 g\"");
    return std::nullopt;
  }
  const double mass =
      given->mass ? *given->mass
                  : *given->volume * *solver::density_at(c, in.strength);
  const double salt = mass * in.strength;
  in.mass = salt * solver::dry_molar_mass(c) / c.molar_mass;
  in.water = mass - in.mass;
  if (ware_name(name).name != ware_name(c.name).name)
    recipe.assumed.push_back(fmt::format(
        "{} is taken as {}{}", in_quotes(name), c.name,
        ware.strength ? fmt::format(" of {:.3g} %", 100 * *ware.strength)
                      : ""));
  return in;
}

/// Water, or the volume that all is filled up to.
void read_water(TableReader& t, Recipe& recipe) {
  const bool total = t.has("total");
  const char* key = total ? "total" : "water";
  if (total && t.has("water"))
    t.wrong("total", "water is given as well",
            "give one: what is poured in, or what it is filled up to");
  if (!t.has(key)) {
    t.missing("water",
              "give it, as in water = \"500 ml\", or total = \"500 "
              "ml\" where it is filled up to that");
    return;
  }
  const auto given = amount_of(t, key);
  if (!given) return;
  const double volume =
      given->volume ? *given->volume : *given->mass / solver::kWaterDensity;
  if (volume < kLeastVolume || volume > kMostVolume) {
    t.wrong(key, "is out of range", "what makes sense here is 1 ml .. 100 m3");
    return;
  }
  recipe.to_volume = total;
  (total ? recipe.volume : recipe.water) = volume;
}

void settle(Recipe& recipe) {
  std::vector<solver::Portion> portions;
  for (const Ingredient& in : recipe.ingredients)
    portions.push_back({in.compound, in.mass, in.water});
  if (!recipe.to_volume)
    recipe.volume = solver::volume_of(recipe.water, portions);
  for (const Ingredient& in : recipe.ingredients)
    recipe.doses.push_back(
        {in.compound,
         in.mass / solver::dry_molar_mass(*in.compound) / recipe.volume});
}

/// What is more than dissolves stays on the floor of the tank.
void saturate(Recipe& recipe, double temperature) {
  const double warmer = std::max(0.0, temperature - 293.15);
  for (solver::Dose& dose : recipe.doses) {
    const solver::Compound& c = *dose.compound;
    if (!c.solubility) continue;
    const double content = dose.concentration * c.molar_mass;
    const double most = *c.solubility * (1 + kDissolvesMore * warmer);
    if (content <= most) continue;
    recipe.notes.push_back(fmt::format(
        "{:.3g} g/l of {} is more than dissolves, about {:.2g} g/l at {:.0f} "
        "°C: reckoned with that, the rest lies on the floor.",
        content, c.name, most, to_deg_c(temperature)));
    dose.concentration = most / c.molar_mass;
  }
}

}  // namespace

std::optional<Recipe> read_recipe(TableReader& solution,
                                  const std::vector<solver::Compound>& all,
                                  double temperature) {
  TableReader t = solution.free_table("made_of", amount());
  if (!t.present()) return std::nullopt;
  Recipe recipe;
  read_water(t, recipe);
  bool sound = recipe.volume + recipe.water > 0;
  for (const std::string& name : t.names()) {
    if (name == "water" || name == "total") continue;
    const auto in = ingredient(t, name, all, recipe);
    sound = sound && in.has_value();
    if (in) recipe.ingredients.push_back(*in);
  }
  if (!sound) return std::nullopt;
  settle(recipe);
  for (const solver::Dose& dose : recipe.doses)
    if (dose.concentration * dose.compound->molar_mass > kMostContent) {
      solution.wrong("made_of",
                     "holds more " + dose.compound->name + " than water",
                     "look at the units: g, ml, l");
      return std::nullopt;
    }
  saturate(recipe, temperature);
  return recipe;
}

Recipe recipe_of(
    const std::vector<std::pair<std::string, solver::Quantity>>& composition,
    const std::vector<solver::Compound>& all, double volume) {
  Recipe recipe;
  recipe.volume = volume;
  recipe.to_volume = true;
  for (const auto& [name, content] : composition) {
    const Ware ware = find_ware(all, name);
    if (!ware.compound) continue;
    const double mass = content.value * volume;
    const double dry = mass * solver::dry_molar_mass(*ware.compound) /
                       ware.compound->molar_mass;
    recipe.ingredients.push_back({ware.compound, dry, mass - dry, {}, 1});
  }
  settle(recipe);
  return recipe;
}

}  // namespace thinspot::io
