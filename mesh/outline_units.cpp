#include "mesh/outline_units.hpp"

#include <array>
#include <cmath>

namespace thinspot::mesh {

namespace {

struct Unit {
  std::string_view name;
  double metres;
};

// The inch is 25.4 mm by definition (international yard and pound agreement,
// 1959), foot and thousandth with it.
constexpr std::array units{
    Unit{"mm", 1e-3},      Unit{"cm", 1e-2},     Unit{"m", 1},
    Unit{"um", 1e-6},      Unit{"in", 25.4e-3},  Unit{"inch", 25.4e-3},
    Unit{"thou", 25.4e-6}, Unit{"mil", 25.4e-6}, Unit{"ft", 12 * 25.4e-3}};

}  // namespace

std::optional<double> metres_of_unit(std::string_view name) {
  for (const Unit& unit : units)
    if (unit.name == name) return unit.metres;
  return std::nullopt;
}

std::string known_units() {
  std::string all;
  for (const Unit& unit : units) {
    if (!all.empty()) all += ", ";
    all += unit.name;
  }
  return all;
}

std::optional<double> metres_of_insunits(int number) {
  // Numbers as the open DXF reference lists them under $INSUNITS; those of
  // astronomy and of surveyors are no units for a part in a tank.
  switch (number) {
    case 1: return 25.4e-3;
    case 2: return 12 * 25.4e-3;
    case 4: return 1e-3;
    case 5: return 1e-2;
    case 6: return 1.0;
    case 8: return 25.4e-9;
    case 9: return 25.4e-6;
    case 10: return 36 * 25.4e-3;
    case 12: return 1e-9;
    case 13: return 1e-6;
    case 14: return 1e-1;
    default: return std::nullopt;
  }
}

std::string unit_name(double metres) {
  for (const Unit& unit : units)
    if (std::abs(metres / unit.metres - 1) < 1e-9)
      return std::string(unit.name);
  return "units";
}

}  // namespace thinspot::mesh
