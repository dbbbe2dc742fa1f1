#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::io {

/// A row of a service-condition table of a published standard.
struct ThicknessClass {
  std::string standard, title, edition, name;
  std::string metal;     ///< of the coating
  std::string on;        ///< what it is a coating of
  double thickness = 0;  ///< least, local, on significant surfaces [m]
  std::string service;   ///< what it has to stand
  std::string source;
};

/// thickness_classes.toml of a folder.
/// @throws InputError where the file is not sound, with place.
std::vector<ThicknessClass> read_thickness_classes(
    const std::filesystem::path& folder);

/// Those that come with the program; see library_metals().
const std::vector<ThicknessClass>& library_classes();

}  // namespace thinspot::io
