#pragma once

#include "mesh/errors.hpp"
#include "mesh/outline_drawing.hpp"

#include <functional>
#include <string>

namespace thinspot::mesh {

/// A drawing, or what is wrong with it, as text that goes from one process to
/// another.
std::string packed(const Drawing& drawing);
std::string packed(const Problem& problem);

/// @throws InputError where a problem was packed
/// @throws NoResultError where it is cut short
Drawing unpacked(const std::string& text);

/// What a reader returns or finds wrong, packed; whatever else it throws is a
/// problem too.
/// @param mend  what would be right, for messages
std::string packed_by(const std::function<Drawing()>& read, const char* mend);

/// Reads in a child process what a third party parses: where that crashes, runs
/// round or eats memory, one line says so and the program goes on.
/// @param reader   for messages: "OpenCASCADE"
/// @param seconds  that it may take
/// @param mend     what would be right, for messages
/// @throws InputError with key "file"
Drawing read_apart(const std::function<Drawing()>& read,
                   const std::string& reader, unsigned seconds,
                   const char* mend);
/// The same of what is read packed.
Drawing read_packed_apart(const std::function<std::string()>& read,
                          const std::string& reader, unsigned seconds,
                          const char* mend);

}  // namespace thinspot::mesh
