// A DXF in text form, read in this process.
#include "mesh/outline_drawing.hpp"
#include "tests/fuzz/target.hpp"

namespace thinspot::fuzz {

bool one_input(std::string_view bytes) {
  try {
    require_sound(mesh::outline_of(mesh::parsed_dxf(bytes), {}));
  } catch (const InputError& error) {
    require_clear(error);
  }
  return true;
}

}  // namespace thinspot::fuzz
