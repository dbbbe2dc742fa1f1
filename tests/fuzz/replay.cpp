// Feeds files, and all files of folders, to a fuzz target without libFuzzer.
#include "tests/fuzz/target.hpp"

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_in(const char* const* names, int count) {
  std::vector<fs::path> files;
  for (int k = 0; k < count; ++k) {
    if (!fs::is_directory(names[k])) {
      files.emplace_back(names[k]);
      continue;
    }
    for (const auto& entry : fs::directory_iterator(names[k]))
      if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

int main(int count, char** arguments) {
  const std::vector<fs::path> files =
      files_in(arguments + 1, std::max(count, 1) - 1);
  std::string name = "none";
  try {
    for (const fs::path& file : files) {
      name = file.string();
      std::ifstream in(file, std::ios::binary);
      const std::string bytes{std::istreambuf_iterator<char>(in), {}};
      thinspot::fuzz::require(in.good() || in.eof(), "a file can be read");
      // Said first, for the case that it ends here.
      std::printf("%s\n", name.c_str());
      std::fflush(stdout);
      thinspot::fuzz::one_input(bytes);
    }
  } catch (const std::exception& error) {
    std::printf("%s: thrown: %s\n", name.c_str(), error.what());
    return 1;
  }
  std::printf("%zu inputs, nothing found\n", files.size());
  // A folder that went missing is no corpus that passed.
  return files.empty() ? 1 : 0;
}
