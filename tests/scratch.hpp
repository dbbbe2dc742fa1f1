#pragma once

#include "tests/scratch_folder.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>

namespace thinspot::tests {

inline void put(const std::filesystem::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

/// Whole content of a file; fails the test where there is none.
inline std::string content(const std::filesystem::path& file) {
  CAPTURE(file.string());
  std::ifstream in(file, std::ios::binary);
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// Whole content of what lies in a folder, by name.
inline std::map<std::string, std::string> files_of(
    const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    files[entry.path().filename().string()] = content(entry.path());
  return files;
}

/// What lies in a folder.
inline std::set<std::string> names_in(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.insert(entry.path().filename());
  return names;
}

}  // namespace thinspot::tests
