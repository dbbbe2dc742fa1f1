#include "solver/ions.hpp"

#include "solver/deposit.hpp"
#include "solver/polarization.hpp"

#include <algorithm>
#include <array>

namespace thinspot::solver {

namespace {

// Limiting equivalent conductance at 25 degC, CRC Handbook of Chemistry and
// Physics, "Ionic conductivity and diffusion at infinite dilution", from
// memory. Tin(II) splits water and has no value of its own: taken as others of
// its charge.
constexpr std::array<Ion, 20> table{{
    {"H", 1, 349.8e-4},        {"Na", 1, 50.1e-4},   {"K", 1, 73.5e-4},
    {"NH4", 1, 73.5e-4},       {"Ag", 1, 61.9e-4},   {"Cu", 2, 53.6e-4},
    {"Ni", 2, 49.6e-4},        {"Zn", 2, 52.8e-4},   {"Sn", 2, 50.0e-4},
    {"Fe", 2, 54.0e-4},        {"Co", 2, 55.0e-4},   {"Mg", 2, 53.0e-4},
    {"Ca", 2, 59.5e-4},        {"Cl", 1, 76.3e-4},   {"SO4", 2, 80.0e-4},
    {"OH", 1, 198.0e-4},       {"NO3", 1, 71.4e-4},  {"acetate", 1, 40.9e-4},
    {"sulfamate", 1, 48.3e-4}, {"HSO4", 1, 52.0e-4},
}};

}  // namespace

const Ion* find_ion(std::string_view name) {
  const auto found = std::find_if(table.begin(), table.end(),
                                  [&](const Ion& i) { return i.name == name; });
  return found == table.end() ? nullptr : found;
}

double diffusivity(const Ion& ion) {
  return kGasConstant * kRoomTemperature * ion.conductance /
         (ion.charge * kFaraday * kFaraday);
}

}  // namespace thinspot::solver
