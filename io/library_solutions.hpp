#pragma once

#include "solver/case.hpp"

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace thinspot::io {

/// A solution of the library. Every number with where it comes from.
struct SolutionEntry {
  std::string name;
  std::vector<std::string> spellings;
  std::string metal;
  /// What is weighed for each cubic metre [kg/m3], with its range.
  std::vector<std::pair<std::string, solver::Quantity>> composition;
  std::optional<solver::Quantity> metal_content;  ///< [kg/m3]; else from that
  std::string composition_source;
  double temperature = 298.15;           ///< usual [K]
  std::array<double, 2> temperatures{};  ///< [K]
  solver::Quantity conductivity;         ///< at the usual temperature [S/m]
  std::string conductivity_source;
  solver::Quantity per_kelvin;  ///< d ln conductivity / dT [1/K]
  solver::Quantity efficiency;
  std::string efficiency_source;
  solver::Quantity polarization;  ///< slope at polarization_at [ohm m2]
  double polarization_at = 0;     ///< [A/m2]
  std::string polarization_source;
  std::array<double, 2> usual{}, stirred{};  ///< [A/m2]
  std::string range_source;
  std::optional<solver::Quantity> anode_limit;  ///< [A/m2]
  std::string anode_source;
  std::vector<std::string> contains;
  bool licensed = false;  ///< data only
  std::string notes;
};

/// All of solutions.toml in that folder.
/// @throws InputError where the file is not sound, with place.
std::vector<SolutionEntry> read_solutions(const std::filesystem::path& folder);

/// Those that come with the program; see library_metals().
const std::vector<SolutionEntry>& library_solutions();

/// By name or spelling, case and "sulph" apart; nullptr where none has it.
const SolutionEntry* find_solution(const std::vector<SolutionEntry>& all,
                                   const std::string& name);

/// What to write where no entry has that name: the nearest, or all.
std::string solution_hint(const std::vector<SolutionEntry>& all,
                          const std::string& name);

}  // namespace thinspot::io
