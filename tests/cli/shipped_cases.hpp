#pragma once

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace thinspot::tests {

/// The file of a case that comes with thinspot.
inline std::filesystem::path shipped_case(const std::string& name) {
  return std::filesystem::path(THINSPOT_SOURCE) / "cases" / (name + ".toml");
}

/// The names of all cases that come with thinspot, in order.
inline std::vector<std::string> shipped_cases() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(
           std::filesystem::path(THINSPOT_SOURCE) / "cases"))
    if (entry.path().extension() == ".toml")
      names.push_back(entry.path().stem().string());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace thinspot::tests
