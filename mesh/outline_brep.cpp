#include "mesh/errors.hpp"
#include "mesh/kept_answers.hpp"
#include "mesh/kernel.hpp"
#include "mesh/outline_drawing.hpp"
#include "mesh/outline_packed.hpp"
#include "mesh/whole_file.hpp"

namespace thinspot::mesh {

namespace {

/// The face of a section takes a small part of a second [s].
constexpr unsigned kPatience = 10;

}  // namespace

Drawing read_brep_drawing(const std::filesystem::path& file,
                          const std::string& text, bool step) {
  const KeptAnswers& kept = kernel_answers();
  const std::string key = kernel_key(step ? 's' : 'b', text);
  if (auto found = kept.find(key, unpacked)) return *std::move(found);
  // Opened here, so that the mesher's process has it too.
  const Kernel& there = kernel();
  Drawing drawing =
      read_packed_apart([&] { return there.drawing(file.string(), step); },
                        "OpenCASCADE", kPatience, kWantedDrawing);
  // OpenCASCADE reads the file itself, which may be another one by now.
  if (read_whole_file(file, text.size()).bytes == text)
    kept.keep(key, packed(drawing));
  return drawing;
}

}  // namespace thinspot::mesh
