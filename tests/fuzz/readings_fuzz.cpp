// A table of what was measured at the bench.
#include "io/readings_file.hpp"
#include "tests/fuzz/target.hpp"

#include <cmath>

namespace thinspot::fuzz {

bool one_input(std::string_view bytes) {
  try {
    for (const solver::Reading& r :
         io::read_readings_text(bytes, "readings.csv")) {
      require(std::isfinite(r.value), "a reading is finite");
      require(std::isfinite(r.plus_minus) && r.plus_minus > 0,
              "a reading has a half width");
      require(r.point.allFinite() && std::isfinite(r.distance),
              "a place is finite");
      require(r.line > 1, "a reading stands below the names");
    }
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
