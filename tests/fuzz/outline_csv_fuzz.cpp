// An outline as a table of points.
#include "mesh/outline_drawing.hpp"
#include "tests/fuzz/target.hpp"

namespace thinspot::fuzz {

bool one_input(std::string_view bytes) {
  try {
    require_sound(mesh::outline_of(mesh::read_csv_drawing(bytes), {}));
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
