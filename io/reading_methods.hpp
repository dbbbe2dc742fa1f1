#pragma once

#include "solver/reading.hpp"

#include <string_view>
#include <vector>

namespace thinspot::io {

/// What may be said of how a reading was taken.
struct ReadingMethod {
  std::string_view name;    ///< "section"
  std::string_view said;    ///< "microscope section, ISO 1463"
  solver::Reading::Of of;   ///< what it reads
  double least = 0;         ///< half width of its 95 % interval, at least
                            ///< [V], [A], [kg], [m]; of a ratio 1
  double share = 0;         ///< and at least this share of the value
  std::string_view source;  ///< of both
};
const std::vector<ReadingMethod>& reading_methods();

}  // namespace thinspot::io
