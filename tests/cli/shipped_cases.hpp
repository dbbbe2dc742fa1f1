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

/// A run of the program on shipped cases: one, or several that are layers.
struct ShippedRun {
  std::string name;  ///< as its results are called
  std::vector<std::string> files;
};

inline std::vector<ShippedRun> shipped_runs() {
  std::vector<ShippedRun> runs;
  for (const std::string& name : shipped_cases())
    runs.push_back({name, {shipped_case(name).string()}});
  runs.push_back({"token_copper-token_nickel",
                  {shipped_case("token_copper").string(),
                   shipped_case("token_nickel").string()}});
  return runs;
}

/// Its arguments to the program, results into a folder.
inline std::vector<std::string> arguments_of(const ShippedRun& run,
                                             const std::filesystem::path& out) {
  std::vector<std::string> arguments{"solve"};
  arguments.insert(arguments.end(), run.files.begin(), run.files.end());
  arguments.insert(arguments.end(), {"--out", out.string()});
  return arguments;
}

}  // namespace thinspot::tests
