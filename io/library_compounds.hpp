#pragma once

#include "solver/compound.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace thinspot::io {

/// All substances of substances.toml in that folder.
/// @throws InputError where the file is not sound, with place.
std::vector<solver::Compound> read_compounds(
    const std::filesystem::path& folder);

/// Those that come with the program; see library_metals().
const std::vector<solver::Compound>& library_compounds();

/// A name as people write it, taken apart: "Sulphuric acid 96 %" is "sulfuric
/// acid" of strength 0.96.
struct WareName {
  std::string name;                ///< lower case, sulf for sulph
  std::optional<double> strength;  ///< mass fraction
};
WareName ware_name(const std::string& written);

/// The compound that a name stands for, and the strength that comes with it.
struct Ware {
  const solver::Compound* compound = nullptr;
  std::optional<double> strength;
};
/// @returns none where it is not in the library.
Ware find_ware(const std::vector<solver::Compound>& all,
               const std::string& written);

/// Every name and spelling, for hints.
std::vector<std::string> ware_names(const std::vector<solver::Compound>& all);

}  // namespace thinspot::io
