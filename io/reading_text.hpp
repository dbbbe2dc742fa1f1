#pragma once

#include "solver/reading.hpp"

#include <string>

// A reading of the bench as text.
namespace thinspot::io {

/// Unit of what is read, and its factor from SI.
struct ReadUnit {
  const char* name;  ///< "µm"
  const char* key;   ///< "um"
  double factor;
};
ReadUnit read_unit(solver::Reading::Of of);

/// A value with its unit, "1.32 V", "12.1 µm", "0.15 g", "3.9".
std::string reading_value_text(solver::Reading::Of of, double value);

/// The reading's own, "0.15 g ± 0.01".
std::string read_text(const solver::Reading& reading);

/// What a reading is of and where: "voltage at 0.2 A", "panel, thickness at
/// 20 mm".
std::string reading_name(const solver::Reading& reading);

}  // namespace thinspot::io
