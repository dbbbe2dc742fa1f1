#pragma once

#include "io/table_reader.hpp"
#include "solver/compound.hpp"

#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

/// One thing that is put into the water.
struct Ingredient {
  const solver::Compound* compound = nullptr;
  double mass = 0;               ///< of it without any water [kg]
  double water = 0;              ///< that it brings along [kg]
  std::optional<double> poured;  ///< volume of the ware [m3]
  double strength = 1;           ///< mass fraction of the ware
};

/// A solution as it is made up.
struct Recipe {
  double volume = 0;       ///< of the solution [m3]
  bool to_volume = false;  ///< filled up to it, rather than added to water
  double water = 0;        ///< poured in first [m3]; 0 where filled up
  std::vector<Ingredient> ingredients;
  std::vector<solver::Dose> doses;   ///< same order; what dissolves
  std::vector<std::string> notes;    ///< what does not dissolve
  std::vector<std::string> assumed;  ///< what was taken for what was written
};

/// Reads solution.made_of: water (or total, filled up to), and everything else
/// under its name with a mass, or for acids a volume with their strength.
/// @param temperature  [K], for what dissolves
/// @returns nothing where the table has none or is not sound; why is noted.
std::optional<Recipe> read_recipe(TableReader& solution,
                                  const std::vector<solver::Compound>& all,
                                  double temperature);

/// What an entry of the library says for each cubic metre, as a recipe for that
/// volume [m3].
/// @param composition  name and content of the pure substance [kg/m3]
Recipe recipe_of(
    const std::vector<std::pair<std::string, solver::Quantity>>& composition,
    const std::vector<solver::Compound>& all, double volume);

}  // namespace thinspot::io
