#pragma once

#include <string>
#include <string_view>

namespace thinspot::io {

/// Dimensions that a key of the case file or of the library may ask for.
enum class Dimension {
  length,
  area,
  volume,
  mass,
  duration,
  angle,
  temperature,
  current,
  voltage,
  current_density,
  resistance,
  area_resistance,
  conductivity,
  rate,
  fraction,
  molar_mass,
  mass_density,
};

/// A number with unit converted to SI (kelvin for temperatures, radian for
/// angles, turns per second for rates, 1 for fractions), and the half width of
/// its 95 % interval in the same unit; of a range half its width.
struct ParsedQuantity {
  double value = 0;
  double plus_minus = 0;
  bool evenly = false;  ///< written as a range that has a width
};

/// Reads "24 mm", "18 S/m +- 2 S/m", "18 S/m +- 10 %" or "16 S/m .. 20 S/m".
/// A fraction may stand without a unit, as in "0.95 +- 0.02".
/// @throws InputError with key "" where there is no number, no unit, a unit of
///         another dimension or of none, a second number, or a value that is
///         not finite; the mend shows a right form.
/// @throws NoResultError where UDUNITS' table of units cannot be found.
ParsedQuantity parse_quantity(std::string_view text, Dimension dimension);

/// "a length", "a current density": for messages.
std::string_view dimension_phrase(Dimension dimension);

/// A right form: "24 mm", "2 A/dm2".
std::string_view dimension_example(Dimension dimension);

}  // namespace thinspot::io
