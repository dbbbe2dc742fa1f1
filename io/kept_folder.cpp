#include "io/kept_folder.hpp"

#include "io/kept_summary.hpp"
#include "io/kept_surface.hpp"
#include "io/output_folder.hpp"
#include "mesh/errors.hpp"
#include "mesh/whole_file.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <new>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

namespace thinspot::io {

namespace {

namespace fs = std::filesystem;

/// A summary takes some ten thousand bytes, a surface a hundred a point.
constexpr std::uintmax_t kMostSummary = 8u << 20;
constexpr std::uintmax_t kMostSurface = 256u << 20;

[[noreturn]] void refuse(const fs::path& folder, const std::string& key,
                         const std::string& wrong, const std::string& mend) {
  throw InputError({{key, wrong, mend, folder.string()}});
}

std::string read_file(const fs::path& folder, const std::string& name,
                      std::uintmax_t most,
                      const std::optional<std::uintmax_t>& expected) {
  using Fault = mesh::WholeFile::Fault;
  mesh::WholeFile whole = mesh::read_whole_file(folder / name, most);
  switch (whole.fault) {
    case Fault::none: break;
    case Fault::absent:
    case Fault::special:
      refuse(folder, name, "is missing", "run thinspot solve again");
    case Fault::too_large:
      refuse(folder, name, "is larger than results ever are",
             "run thinspot solve again");
    case Fault::unreadable:
      refuse(folder, name, "cannot be read", "see to your rights to read it");
    case Fault::changing:
      refuse(folder, name, "changes while it is read",
             "wait until thinspot solve has ended");
  }
  if (expected && whole.bytes.size() != *expected)
    refuse(folder, name,
           fmt::format("has {} bytes, where summary.json says {}: it was "
                       "changed, or not written to its end",
                       whole.bytes.size(), *expected),
           "run thinspot solve again");
  return std::move(whole.bytes);
}

}  // namespace

solver::KeptResult read_kept_folder(const fs::path& folder) {
  std::error_code error;
  const fs::file_status status = fs::status(folder, error);
  if (!fs::exists(status))
    throw InputError(folder.string(), "there is no such folder",
                     "name one that thinspot solve has filled");
  if (!fs::is_directory(status))
    throw InputError(folder.string(), "is no folder",
                     "name one that thinspot solve has filled");
  if (!fs::is_regular_file(folder / summary_name, error))
    refuse(
        folder, "",
        fmt::format("holds no finished results, as it has no {}", summary_name),
        "fill it by thinspot solve CASE.toml");
  try {
    KeptSummary summary = read_summary(
        read_file(folder, std::string(summary_name), kMostSummary, {}));
    const std::string csv =
        read_file(folder, "surface.csv", kMostSurface, summary.surface_bytes);
    read_surface(csv, summary.kept);
    summary.kept.name = folder.string();
    return std::move(summary.kept);
  } catch (const InputError& problem) {
    Problem p = problem.problems().front();
    p.place = folder.string();
    throw InputError({p});
  } catch (const std::bad_alloc&) {
    refuse(folder, "", "asks for more memory than there is",
           "run thinspot solve again");
  }
}

}  // namespace thinspot::io
