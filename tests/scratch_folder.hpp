#pragma once

#include <stdlib.h>

#include <cerrno>
#include <filesystem>
#include <string>
#include <system_error>

namespace thinspot::tests {

/// A folder of its own for one test, taken away after it.
class Scratch {
 public:
  Scratch() {
    namespace fs = std::filesystem;
    std::string name =
        (fs::temp_directory_path() / "thinspot").string() + std::string(6, 'X');
    if (::mkdtemp(name.data()) == nullptr)
      throw std::system_error(errno, std::generic_category(), name);
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

}  // namespace thinspot::tests
