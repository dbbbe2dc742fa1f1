#pragma once

#include "io/case_reading.hpp"
#include "io/library_solutions.hpp"
#include "io/recipe.hpp"
#include "solver/compound.hpp"

// The pieces that read_solution is put together from.
namespace thinspot::io {

/// Takes over from the library's entry whatever it says.
void take_entry(CaseReading& r, const SolutionEntry& entry,
                const std::vector<solver::Compound>& compounds);

/// Takes over what follows from the recipe; what it says goes before the
/// entry's.
/// @param keep  numbers that the case gives itself: "conductivity", "metal"
void take_recipe(CaseReading& r, TableReader& t, const Recipe& recipe,
                 const std::vector<solver::Compound>& compounds);

/// One efficiency for all, or a table by current density.
void read_efficiency(CaseReading& r, TableReader& t);

/// Moves a conductivity from the temperature that it is known at to that of
/// the solution; its band widens with the distance.
solver::Quantity at_temperature(const solver::Quantity& conductivity,
                                const solver::Quantity& per_kelvin,
                                double kelvins_warmer);

/// "20 S/m +- 4 S/m"
std::string conductivity_text(const solver::Quantity& conductivity);

/// Notes what a figure rests on, in place of what was noted before.
void note_source(solver::Solution& solution, const std::string& key,
                 const std::string& source, const std::string& sure);

/// How to measure a conductivity that is a wide guess.
std::string two_plate_recipe();

}  // namespace thinspot::io
