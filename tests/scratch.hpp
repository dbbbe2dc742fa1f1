#pragma once

#include <catch2/catch.hpp>

#include <stdlib.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

namespace thinspot::tests {

/// A folder of its own for one test, taken away after it.
class Scratch {
 public:
  Scratch() {
    namespace fs = std::filesystem;
    std::string name =
        (fs::temp_directory_path() / "thinspot").string() + std::string(6, 'X');
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Scratch() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const {
    return path_ / name;
  }

 private:
  std::filesystem::path path_;
};

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

/// What lies in a folder.
inline std::set<std::string> names_in(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    names.insert(entry.path().filename());
  return names;
}

}  // namespace thinspot::tests
