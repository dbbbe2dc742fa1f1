#pragma once

#include "solver/kept_result.hpp"

#include <cstdint>
#include <string_view>

namespace thinspot::io {

/// What summary.json says of itself and of the files beside it.
struct KeptSummary {
  solver::KeptResult kept;           ///< without surfaces and outlines
  std::uintmax_t surface_bytes = 0;  ///< that surface.csv has to have
};

/// Reads the text of a summary.json.
/// @throws InputError with key "summary.json" where it is damaged, not of this
///         program, of a schema that is not known, or does not list surface.csv
KeptSummary read_summary(std::string_view json);

}  // namespace thinspot::io
