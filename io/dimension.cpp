#include "io/units.hpp"

namespace thinspot::io {

std::string_view dimension_phrase(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "a length";
    case Dimension::area: return "an area";
    case Dimension::volume: return "a volume";
    case Dimension::mass: return "a mass";
    case Dimension::duration: return "a time";
    case Dimension::angle: return "an angle";
    case Dimension::temperature: return "a temperature";
    case Dimension::current: return "a current";
    case Dimension::voltage: return "a voltage";
    case Dimension::current_density: return "a current density";
    case Dimension::resistance: return "a resistance";
    case Dimension::area_resistance: return "a resistance times an area";
    case Dimension::conductivity: return "a conductivity";
    case Dimension::rate: return "a rate of turning";
    case Dimension::fraction: return "a share";
    case Dimension::molar_mass: return "a molar mass";
    case Dimension::mass_density: return "a density";
  }
  return "a quantity";
}

std::string_view dimension_example(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "24 mm";
    case Dimension::area: return "0.16 dm2";
    case Dimension::volume: return "800 ml";
    case Dimension::mass: return "45 g";
    case Dimension::duration: return "20 min";
    case Dimension::angle: return "30 deg";
    case Dimension::temperature: return "25 degC";
    case Dimension::current: return "0.33 A";
    case Dimension::voltage: return "1.5 V";
    case Dimension::current_density: return "2 A/dm2";
    case Dimension::resistance: return "0.1 ohm";
    case Dimension::area_resistance: return "2.6 ohm cm2";
    case Dimension::conductivity: return "18 S/m";
    case Dimension::rate: return "6 rpm";
    case Dimension::fraction: return "95 %";
    case Dimension::molar_mass: return "63.5 g/mol";
    case Dimension::mass_density: return "8.96 g/cm3";
  }
  return "1";
}

}  // namespace thinspot::io
