// What our own process does about a STEP or BREP: the look at its text before
// OpenCASCADE gets it in a child, and what that child sends back.
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_packed.hpp"
#include "tests/fuzz/target.hpp"

namespace thinspot::fuzz {

namespace {

void unpack(std::string_view bytes) {
  const std::string text(bytes);
  const mesh::Drawing drawing = mesh::unpacked(text);
  // What is packed again is how it came, as far as it was read; arcs beyond
  // half a circle came in one piece.
  const std::string again = mesh::packed(drawing);
  require(mesh::packed(mesh::unpacked(again)) == again,
          "a drawing is unpacked as it was packed");
  require_sound(mesh::outline_of(drawing, {1e-3}).outline);
}

}  // namespace

bool one_input(std::string_view bytes) {
  const Chosen input = chosen(bytes, 3);
  try {
    if (input.way < 2)
      mesh::check_whole(input.rest, input.way == 0);
    else
      unpack(input.rest);
  } catch (const InputError&) {
    // The words are the child's, whatever these bytes are.
  } catch (const NoResultError&) {
  }
  return true;
}

}  // namespace thinspot::fuzz
