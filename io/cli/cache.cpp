#include "io/cli/cache.hpp"

#include "mesh/kept_answers.hpp"
#include "mesh/kernel.hpp"

#include <cstdlib>

namespace thinspot::io::cli {

namespace fs = std::filesystem;

namespace {

/// Of the environment, a whole path; else nothing.
fs::path folder_in(const char* variable) {
  const char* value = std::getenv(variable);
  const fs::path folder = value ? value : "";
  return folder.is_absolute() ? folder : fs::path();
}

}  // namespace

fs::path cache_folder() {
  if (const fs::path given = folder_in("XDG_CACHE_HOME"); !given.empty())
    return given / "thinspot";
  const fs::path home = folder_in("HOME");
  return home.empty() ? home : home / ".cache/thinspot";
}

void use_cache(const CommandLine& line) {
  if (!line.has("no-cache"))
    mesh::keep_kernel_answers(mesh::KeptAnswers(cache_folder()));
  mesh::begin_kernel();
}

}  // namespace thinspot::io::cli
