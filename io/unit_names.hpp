#pragma once

#include "io/units.hpp"

#include <string>
#include <string_view>

namespace thinspot::io {

/// A unit as the trade writes it, spelt as UDUNITS does.
struct UnitName {
  std::string spelling;  ///< empty where the unit is refused
  std::string hint;      ///< why it is refused, or empty: not a unit at all
};

/// "µm" -> "um", "thou" -> "mil", "ASF" -> "(A/ft2)", "Ω·cm²" -> "ohm.cm2", "C"
/// of a temperature -> "degC", "gal" -> "(231 in3)". Refuses "oz" of a mass,
/// and whatever is no plain product of units with whole exponents.
UnitName udunits_name(std::string_view unit, Dimension dimension);

/// The same with long words in small letters ("Volts"): for a second try.
std::string small_words(std::string_view spelling);

}  // namespace thinspot::io
