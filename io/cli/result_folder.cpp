#include "io/cli/result_folder.hpp"

#include "io/output_folder.hpp"
#include "io/vtk_data.hpp"
#include "mesh/errors.hpp"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <system_error>

namespace thinspot::io::cli {

namespace {

namespace fs = std::filesystem;

/// All files of a run together take some megabytes.
constexpr std::uintmax_t kMostBytes = 512u << 20;
constexpr std::size_t kMostSteps = 5000;

InputError error_in(const fs::path& folder, const std::string& file,
                    const std::string& wrong, const std::string& mend) {
  return InputError({{file, wrong, mend, folder.string()}});
}

}  // namespace

bool is_result_folder(const CommandLine& line) {
  for (const std::string& name : line.operands) {
    std::error_code error;
    const fs::path path = name;
    const fs::file_status status = fs::status(path, error);
    if (!fs::exists(status) && path.extension() != ".toml")
      throw InputError(name, "there is no such folder or case file",
                       "write: thinspot view CASE-out, or CASE.toml");
    for (const char* of_results : {".vtu", ".vtp", ".pvd", ".json", ".html"})
      if (path.extension() == of_results && fs::is_regular_file(status))
        throw InputError(
            name, "is one file of a result",
            "name its folder: thinspot view " +
                (path.has_parent_path() ? path.parent_path().string() : "."));
    if (!fs::is_directory(status)) continue;
    if (line.operands.size() > 1)
      throw InputError(name, "is a folder, which is shown alone",
                       "one folder, or case files");
    if (line.has("set"))
      throw InputError("--set",
                       "is for case files, and " + name + " holds results",
                       "name the case file in its place");
    return true;
  }
  return false;
}

std::map<std::string, std::string> read_result_folder(const fs::path& folder) {
  std::error_code error;
  if (!fs::is_regular_file(folder / summary_name, error))
    throw error_in(
        folder, "",
        fmt::format("holds no finished results, as it has no {}", summary_name),
        "fill it by thinspot solve CASE.toml");
  std::map<std::string, std::string> files;
  std::uintmax_t bytes = 0;
  const auto read = [&](const std::string& name) {
    const fs::path file = folder / name;
    if (!fs::is_regular_file(file, error)) return false;
    bytes += fs::file_size(file, error);
    if (error || bytes > kMostBytes)
      throw error_in(folder, name, "is larger than results ever are",
                     "run thinspot solve again");
    std::ifstream in(file, std::ios::binary);
    files[name].assign(std::istreambuf_iterator<char>(in), {});
    if (!in.is_open() || in.bad())
      throw error_in(folder, name, "cannot be read",
                     "see to your rights to read it");
    return true;
  };
  for (const char* name :
       {"summary.json", "section.vtu", "surface.vtp", "steps.pvd"})
    read(name);
  for (std::size_t k = 0; k < kMostSteps && read(step_file(k)); ++k) {
  }
  return files;
}

}  // namespace thinspot::io::cli
