#include "mesh/kernel.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_packed.hpp"

namespace thinspot::mesh {

namespace {

/// The face of a section takes a small part of a second [s].
constexpr unsigned kPatience = 10;

}  // namespace

Drawing read_brep_drawing(const std::string& file, bool step) {
  // Opened here, so that the mesher's process has it too.
  const Kernel& there = kernel();
  return read_packed_apart([&] { return there.drawing(file, step); },
                           "OpenCASCADE", kPatience, kWantedDrawing);
}

}  // namespace thinspot::mesh
