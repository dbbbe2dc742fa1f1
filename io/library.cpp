#include "io/library.hpp"

#include "io/library_list.hpp"

#include <fmt/format.h>

#include <system_error>

namespace thinspot::io {

namespace {

constexpr Limits kMolarMass{Dimension::molar_mass, "1 g/mol", "300 g/mol"};
constexpr Limits kDensity{Dimension::mass_density, "0.5 g/cm3", "25 g/cm3"};
constexpr double kMostElectrons = 8;

const std::vector<KeyInfo>& metal_keys() {
  static const std::vector<KeyInfo> keys{
      {"name", Form::name, {}, true},
      {"molar_mass", Form::value, kMolarMass, true},
      {"electrons", Form::whole, {}, true},
      {"density", Form::value, kDensity, true},
      {"source", Form::text, {}, true},
  };
  return keys;
}

solver::Metal read_metal(TableReader& t) {
  solver::Metal metal;
  metal.name = t.text("name").value_or("");
  metal.molar_mass = t.value("molar_mass").value_or(0);
  metal.density = t.value("density").value_or(0);
  metal.source = t.text("source").value_or("");
  const double electrons = t.whole("electrons").value_or(1);
  if (electrons < 1 || electrons > kMostElectrons)
    t.wrong("electrons", fmt::format("{} is out of range", electrons),
            "1 .. 8 for each atom deposited");
  else
    metal.electrons = static_cast<int>(electrons);
  return metal;
}

}  // namespace

std::filesystem::path library_folder() {
  namespace fs = std::filesystem;
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  const fs::path installed =
      (program.parent_path() / "../share/thinspot/library").lexically_normal();
  const fs::path source = THINSPOT_SOURCE_LIBRARY;
  for (const fs::path& folder : {installed, source})
    if (fs::is_regular_file(folder / "metals.toml", error)) return folder;
  throw NoResultError(
      fmt::format("the library of metals is missing: looked for metals.toml in "
                  "{} and in {}; install or build the program anew",
                  installed.string(), source.string()));
}

std::vector<solver::Metal> read_metals(const std::filesystem::path& folder) {
  std::vector<solver::Metal> metals;
  read_library_list(folder / "metals.toml", "metal", metal_keys(),
                    [&](TableReader& t) { metals.push_back(read_metal(t)); });
  return metals;
}

const std::vector<solver::Metal>& library_metals() {
  static const std::vector<solver::Metal> all = read_metals(library_folder());
  return all;
}

}  // namespace thinspot::io
