#pragma once

#include "io/units.hpp"

#include <string>

namespace thinspot::io {

/// SI value = scale * number + shift; the shift is 0 except for temperatures.
struct UnitConversion {
  enum class Status { fine, unknown_unit, other_dimension };
  Status status = Status::unknown_unit;
  double scale = 0;
  double shift = 0;
};

/// Reads UDUNITS' database once, at the first call (3 to 4 ms). Silent, and
/// safe to call from several threads.
/// @param unit  as UDUNITS spells it (see unit_names.hpp).
/// @throws NoResultError where the database is not installed.
UnitConversion conversion_to_si(const std::string& unit, Dimension dimension);

}  // namespace thinspot::io
