#pragma once

#include "io/unit_conversion.hpp"
#include "io/units.hpp"

#include <string>
#include <string_view>

namespace thinspot::io {

/// What a unit as people write it means where a dimension is asked for.
struct UnitMeaning {
  UnitConversion conversion;
  std::string hint;  ///< where what was written may mean two things: why
};

/// Remembers what was asked before, since one process may read a case many
/// thousand times. Safe to call from several threads.
/// @throws NoResultError where UDUNITS' database is not installed.
UnitMeaning unit_meaning(std::string_view unit, Dimension dimension);

/// The same, found out anew.
UnitMeaning found_meaning(std::string_view unit, Dimension dimension);

/// How many are remembered, and how long such a unit may be [bytes].
inline constexpr std::size_t kMostRemembered = 1000;
inline constexpr std::size_t kLongestRemembered = 40;

/// How many are remembered now.
std::size_t remembered_units();

}  // namespace thinspot::io
